"""What a class tells those that follow it and no event says: a small file beside its journal.

It isn't synced, and nothing depends on it: where it can't be written or read, whoever follows sees
the class without a card, a lesson or a page turned by hand.
"""

import os
import threading
from contextlib import suppress
from pathlib import Path

from msgspec import MsgspecError, Struct, convert
from msgspec.json import decode, encode

from classclock.machine.opening import open_raw
from classclock.machine.plain_file import open_file
from classclock.machine.replacing import put_in_place, take_away
from classclock.machine.whole_file import HALF
from classclock.wall.seen.room_values import RoomView

VERSION = 1
SUFFIX = ".view"
_MOST_BYTES = 65_536


class LaterViewError(ValueError):
    """A later classclock wrote it; `str` says what to do."""


class ToldView(Struct, frozen=True):
    """The file. Of a later version not even the fields need be these."""

    journal: str
    """Where the class's journal is now; it begins beside this file."""
    room: RoomView = RoomView()
    version: int = VERSION


def view_path(journal: Path) -> Path:
    return journal.with_suffix(SUFFIX)


class ViewFile:
    """The one that a running class writes. May be asked from any thread, and never raises."""

    def __init__(self, journal: Path) -> None:
        """`journal` is where the class began, or was taken up again."""
        self._path = view_path(journal)
        self._one_at_a_time = threading.Lock()
        self._over = False

    def write(self, told: ToldView) -> bool:
        """Put this in its place; whether that worked."""
        with self._one_at_a_time:
            if self._over:
                return True
            beside = self._path.with_name(f"{HALF}{self._path.name}")
            try:
                file = open_raw(beside, os.O_CREAT | os.O_TRUNC | os.O_WRONLY)
                with os.fdopen(file, "wb") as opened:
                    opened.write(encode(told) + b"\n")
                put_in_place(beside, self._path)
            except OSError:
                with suppress(OSError):
                    take_away(beside)
                return False
            return True

    def take_away(self) -> None:
        """The class is left: nobody need follow it any more. What comes later isn't written."""
        with self._one_at_a_time, suppress(OSError):
            self._over = True
            take_away(self._path)


def read_view(path: Path) -> ToldView | None:
    """What a class told; None where there is no such file, or it makes no sense.

    Raises:
        LaterViewError: a later classclock wrote it.
    """
    try:
        with open_file(path) as opened:
            values = decode(opened.read(_MOST_BYTES))
        if isinstance(values, dict) and isinstance(version := values.get("version"), int):
            if version > VERSION:
                raise LaterViewError(
                    "this class is run by a later classclock: update this one to follow it"
                )
            return convert(values, ToldView)
    except (OSError, MsgspecError):
        pass
    return None
