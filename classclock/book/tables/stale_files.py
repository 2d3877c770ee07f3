"""Which results files the book has yet to look at: known by name, size and time.

The folder's own time says whether any could have changed, since results are renamed into place.
"""

import contextlib
import os
from collections.abc import Iterable
from heapq import nlargest
from pathlib import Path
from typing import NamedTuple

from sqlalchemy import Connection, func, select

from classclock.book.tables.schema import files
from classclock.club.folder import results as results_folder

_RECENT = 200
"""So many files, the newest by name, are looked at each time."""


class Seen(NamedTuple):
    """What tells whether a file is as it was."""

    size: int
    changed: int


def folder_changed(folder: Path) -> int:
    """When a file last came into the club's results or went, in nanoseconds; 0 without results."""
    try:
        return results_folder(folder).stat().st_mtime_ns
    except FileNotFoundError:
        return 0


def to_look_at(
    connection: Connection, folder: Path, room: str, *, thorough: bool
) -> tuple[str, ...]:
    """The names of files that are new, have changed or are gone; the oldest first.

    In a large club's folder files of long ago are looked at only if some came or went, or when it
    is to be `thorough`: classclock itself changes them only to erase somebody.
    """
    names = _listed(results_folder(folder))
    since = "" if thorough else _looked_at_since(connection, room, names)
    there = seen_in(folder, (name for name in names if name >= since))
    known = known_files(connection, room, since)
    if since and any(name not in there for name in known):
        return to_look_at(connection, folder, room, thorough=True)
    return tuple(
        sorted(name for name in {*there, *known} if there.get(name) != known.get(name, None))
    )


def known_files(connection: Connection, room: str, since: str) -> dict[str, Seen]:
    """The files that are in the book, from this name on."""
    asked = select(files).where(files.c.room == room, files.c.name >= since)
    return {row.name: Seen(row.size, row.changed) for row in connection.execute(asked)}


def seen_in(folder: Path, names: Iterable[str]) -> dict[str, Seen]:
    """The files of these names that are there."""
    found = {}
    for name in names:
        with contextlib.suppress(FileNotFoundError):  # taken away meanwhile
            stat = os.stat(f"{results_folder(folder)}/{name}")  # noqa: PTH116  iterdir and Path are slow for 25,000
            found[name] = Seen(stat.st_size, stat.st_mtime_ns)
    return found


def _listed(folder: Path) -> list[str]:
    try:
        return [name for name in os.listdir(folder) if name.endswith(".json")]  # noqa: PTH208  as above
    except FileNotFoundError:
        return []


def _looked_at_since(connection: Connection, room: str, names: list[str]) -> str:
    """The name from which on files are looked at; empty for all of them."""
    if len(names) <= _RECENT:
        return ""
    since = nlargest(_RECENT, names)[-1]
    older = select(func.count()).where(files.c.room == room, files.c.name < since)
    return since if connection.execute(older).scalar_one() == len(names) - _RECENT else ""
