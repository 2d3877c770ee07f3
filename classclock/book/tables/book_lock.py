"""One writer of a club's book at a time, on this machine; who waits too long hears who it is."""

import errno
import json
import os
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from datetime import datetime
from pathlib import Path

from msgspec import Struct

from classclock.book.under_way import NOW
from classclock.club.folder import private
from classclock.machine.locking import HeldElsewhereError, held
from classclock.machine.opening import open_raw
from classclock.machine.plain_file import read_file
from classclock.units.plain_json import read_json

WAIT_S = 5.0
"""Nobody waits longer for a lock on the book, whoever has it."""
_HOLDER = "book.holder"
"""What the holder of the lock does; on Windows nobody else can read what is locked."""


class BookHeldError(TimeoutError):
    """Somebody else writes in the book for too long; `strerror` says who, and what to do."""

    def __init__(self, folder: Path, why: str) -> None:
        super().__init__(errno.ETIMEDOUT, why, str(folder))


class Holder(Struct, frozen=True):
    """Who writes in the book: which command, and since when (RFC 3339); empty where unknown."""

    command: str = ""
    since: str = ""


@contextmanager
def book_lock(folder: Path) -> Iterator[None]:
    """Wait for whoever writes in this folder's book or changes, then keep others out.

    For short batches: who has more to do lets others in between (`machine/locking.py`).

    Raises:
        BookHeldError: somebody else writes in it still after `WAIT_S`. It is an OSError.
        OSError: the folder can't be written to.
    """
    try:
        with held(private(folder) / "book.lock", WAIT_S):
            _say_who(folder / _HOLDER)
            yield
    except HeldElsewhereError:
        raise BookHeldError(folder, held_words(holder_in(folder))) from None


def held_words(holder: Holder, room: str = "") -> str:
    """Who holds the book and what to do: `room hall writes in the book (classclock book import…)`.

    `room` is the folder's name of another room of a shared book.
    """
    who = f"the room {room}" if room else "another classclock"
    command = f"classclock {holder.command}".strip()
    begun = f", begun {_when(holder.since)}" if holder.since else ""
    doing = f" ({command}{begun})" if holder.command or begun else ""
    return (
        f"{who} writes in the book just now{doing}: wait until that is done, then do this again; "
        "if it hangs, end it there"
    )


def _when(since: str) -> str:
    """The day and the time here."""
    try:
        return f"{datetime.fromisoformat(since).astimezone():%Y-%m-%d %H:%M}"
    except ValueError:
        return "a while ago"


def _say_who(path: Path) -> None:
    """Who holds it now, for whoever waits; a disk that is full keeps nobody from the book."""
    said = json.dumps({"command": NOW.command, "since": NOW.since}).encode()
    with suppress(OSError):
        file = open_raw(path, os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
        try:
            os.write(file, said)
        finally:
            os.close(file)


def holder_in(folder: Path) -> Holder:
    """Who holds the lock of the book in this folder, as far as they could say."""
    try:
        read = read_json(read_file(folder / _HOLDER))
        return Holder(str(read["command"]), str(read["since"]))
    except (OSError, ValueError, KeyError, TypeError):
        return Holder()
