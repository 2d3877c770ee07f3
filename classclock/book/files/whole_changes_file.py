"""The club's changes as they stand in their file, read and written whole.

Its first line names the room, which tells its classes from other rooms' on a shared server.
"""

import hashlib
import json
import os
from pathlib import Path

from msgspec import convert
from msgspec.json import encode

from classclock.book.files.changes import Change, Changes
from classclock.book.files.changes_file import NAME, ChangesDamagedError
from classclock.machine.plain_file import open_file, read_file
from classclock.machine.whole_file import write_whole
from classclock.units.plain_json import read_json


def read_changes(folder: Path) -> Changes:
    """Read the club's changes; a folder without them gets a file with a room of its own.

    A torn last line, as after a power cut, is left out.

    Raises:
        ChangesDamagedError: a line within can't be read.
        OSError: the file can't be read or made.
    """
    path = folder / NAME
    try:
        first, *lines = read_file(path).split(b"\n")
    except FileNotFoundError:
        changes = Changes(os.urandom(8).hex())
        write_changes(folder, changes)
        return changes
    room, read = _room(path, first), []
    for number, line in enumerate(lines[:-1], start=2):
        try:
            read.append(convert(read_json(line), Change))
        except (ValueError, KeyError, TypeError) as error:
            raise _damaged(path, number, error) from None
    return Changes(room, tuple(read))


def _room(path: Path, first: bytes) -> str:
    try:
        room = str(read_json(first)["room"])
    except (ValueError, KeyError, TypeError) as error:
        raise _damaged(path, 1, error) from None
    if not room or "/" in room:
        raise ChangesDamagedError(f"{path}:1: the room's name is missing: put it back from a copy")
    return room


def _damaged(path: Path, number: int, error: Exception) -> ChangesDamagedError:
    why = str(error).splitlines()[0]
    return ChangesDamagedError(
        f"{path}:{number}: this line can't be read ({why}): put the file back from a copy"
    )


def changes_if_any(folder: Path) -> Changes:
    """The changes for who only asks: none where the file is missing or can't be read.

    The folder is left as it is: `read_changes` would begin a file. The room is then without a name.
    """
    try:
        return read_changes(folder) if (folder / NAME).exists() else Changes("")
    except (ChangesDamagedError, OSError):
        return Changes("")


def room_of(folder: Path) -> str:
    """The room's name; a folder without changes gets a file with a room of its own.

    Raises: as `read_changes` does.
    """
    try:
        with open_file(folder / NAME) as opened:
            return _room(folder / NAME, opened.readline())
    except FileNotFoundError:
        return read_changes(folder).room


def changes_digest(folder: Path) -> str:
    """What tells whether the file is as it was; empty where there is none.

    Raises:
        OSError: it can't be read.
    """
    try:
        return hashlib.sha256(read_file(folder / NAME)).hexdigest()
    except FileNotFoundError:
        return ""


def write_changes(folder: Path, changes: Changes) -> None:
    """Write the whole file anew, for this account alone.

    Raises:
        OSError: it can't be written.
    """
    lines = [json.dumps({"room": changes.room}).encode()]
    lines += [encode(line) for line in changes.lines]
    write_whole(folder / NAME, b"".join(line + b"\n" for line in lines))
