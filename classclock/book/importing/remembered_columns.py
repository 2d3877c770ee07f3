"""What the coach said of a sheet's headings, kept in the club's folder for the next sheet."""

from collections.abc import Mapping
from pathlib import Path

from msgspec import DecodeError
from msgspec.json import decode, encode

from classclock.club.folder import import_columns, private
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import write_whole


def remembered_columns(folder: Path) -> Mapping[str, str]:
    """By heading, what it is; what can't be read was never said, and is asked again."""
    try:
        return decode(read_file(import_columns(folder)), type=dict[str, str])
    except (OSError, DecodeError, ValueError):
        return {}


def remember_columns(folder: Path, said: Mapping[str, str]) -> None:
    """Keep it beside what was said of others; nothing is written where nothing was said.

    Raises:
        OSError: it can't be written.
    """
    kept = remembered_columns(folder)
    if (more := {**kept, **said}) != kept:
        write_whole(import_columns(private(folder)), encode(more, order="sorted") + b"\n")
