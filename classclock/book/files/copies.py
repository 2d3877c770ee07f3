"""Where copies of the club's records were written, so that an erasure can reach them."""

import hashlib
import json
import os
from collections.abc import Iterator, Sequence
from contextlib import contextmanager
from pathlib import Path
from typing import BinaryIO

from msgspec import Struct

from classclock.club.folder import private
from classclock.machine.interrupting import uninterrupted
from classclock.machine.opening import open_raw
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import write_whole, written_together
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
    with copies_written(folder, [path]) as (copy,):
        copy.write(data)


class CopyBeingWritten:
    """A file of records that is written bit by bit."""

    def __init__(self, file: BinaryIO) -> None:
        self._file, self._digest = file, hashlib.sha256()

    def write(self, data: bytes) -> None:
        """Raises OSError."""
        self._file.write(data)
        self._digest.update(data)

    @property
    def digest(self) -> str:
        return self._digest.hexdigest()


@contextmanager
def copies_written(folder: Path, paths: Sequence[Path]) -> Iterator[tuple[CopyBeingWritten, ...]]:
    """The same for several large ones: they get their names together, once all are whole.

    Raises:
        OSError: one can't be written; then nothing has changed.
    """
    with written_together(paths) as together:
        copies = tuple(map(CopyBeingWritten, together.files))
        yield copies
        together.sync()
        with uninterrupted():
            together.put_in_place()
            if remembers(folder):
                pairs = zip(paths, copies, strict=True)
                _remember(folder, [Copy(path.resolve(), copy.digest) for path, copy in pairs])


def _remember(folder: Path, written: Sequence[Copy]) -> None:
    file = open_raw(private(folder) / NAME, os.O_CREAT | os.O_APPEND | os.O_WRONLY)
    try:
        os.write(file, "".join(map(_line, written)).encode())
    finally:
        os.close(file)


def _line(copy: Copy) -> str:
    return json.dumps({"path": str(copy.path), "digest": copy.digest}) + "\n"


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
        write_whole(folder / NAME, "".join(map(_line, copies(folder))).encode())


def _digest(data: bytes) -> str:
    return hashlib.sha256(data).hexdigest()
