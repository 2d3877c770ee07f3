"""Where copies of the club's records were written, so that an erasure can reach them."""

import hashlib
import json
import os
from collections.abc import Iterator
from pathlib import Path

from msgspec import Struct

from classclock.club.folder import private
from classclock.machine.opening import open_raw
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import write_whole
from classclock.units.plain_json import read_json

NAME = "copies.jsonl"


class Copy(Struct, frozen=True):
    """A file that was written outside the club's records."""

    path: Path
    digest: str

    @property
    def unchanged(self) -> bool:
        """Whether the file is still what was written."""
        return _digest(self.path.read_bytes()) == self.digest


def write_copy(folder: Path, path: Path, data: bytes) -> None:
    """Write a file of records for somebody's use, and remember where it went if `remembers`.

    For this account alone; whoever passes it on decides who reads it.

    Raises:
        OSError: it can't be written.
    """
    write_whole(path, data)
    if not remembers(folder):
        return
    line = json.dumps({"path": str(path.resolve()), "digest": _digest(data)}) + "\n"
    file = open_raw(private(folder) / NAME, os.O_CREAT | os.O_APPEND | os.O_WRONLY)
    try:
        os.write(file, line.encode())
    finally:
        os.close(file)


def remembers(folder: Path) -> bool:
    """Whether it can be written down in this club's folder where its copies are."""
    listed = folder / NAME
    return os.access(listed if listed.exists() else folder, os.W_OK) or not folder.exists()


def copies(folder: Path) -> Iterator[Copy]:
    """The copies that are still there; of several written to one place the last."""
    try:
        lines = read_file(folder / NAME).splitlines()
    except FileNotFoundError:
        return
    found: dict[Path, str] = {}
    for line in lines:
        try:
            read = read_json(line)
            found[Path(read["path"])] = str(read["digest"])
        except (ValueError, KeyError, TypeError):
            continue  # a torn line after a power cut
    for path, digest in found.items():
        if path.is_file():
            yield Copy(path, digest)


def forget_missing(folder: Path) -> None:
    """Keep no name of a copy that isn't there any more: it may be a person's.

    Raises:
        OSError: the list can't be written.
    """
    if (folder / NAME).exists():
        kept = [{"path": str(copy.path), "digest": copy.digest} for copy in copies(folder)]
        lines = "".join(json.dumps(line) + "\n" for line in kept)
        write_whole(folder / NAME, lines.encode())


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
