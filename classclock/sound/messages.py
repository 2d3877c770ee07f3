"""What the app and its player process say to each other: one JSON object a line.

Moments are nanoseconds of the machine's raw clock, which both processes share.
"""

import json
from typing import cast, get_args

from msgspec import Struct, to_builtins

from classclock.clock.cues import CueKind

SILENT = "silent"
"""The backend through which nobody hears anything."""
KINDS: tuple[CueKind, ...] = get_args(CueKind)


class Schedule(Struct, frozen=True):
    """Let this sound be heard at `due`. The same id again moves it."""

    id: str
    sound: CueKind
    due: int


class Cancel(Struct, frozen=True):
    """Drop all that is scheduled and cut off what sounds."""


class Volume(Struct, frozen=True):
    level: int
    """0 to 100."""


class Mute(Struct, frozen=True):
    on: bool


class Ask(Struct, frozen=True):
    """Are you still there?"""


class Quit(Struct, frozen=True):
    pass


SoundOrder = Schedule | Cancel | Volume | Mute | Ask | Quit


class Ready(Struct, frozen=True):
    """From now on cues go through this backend; nobody hears them if it is `SILENT`."""

    backend: str


class SoundNotice(Struct, frozen=True):
    """Something the coach should know, in the coach's words, what to do first."""

    text: str
    lasts: bool = False
    """It holds until there is a way to be heard (`Ready`)."""


class Skipped(Struct, frozen=True):
    """This cue came over a second late and was left out."""

    id: str


class Alive(Struct, frozen=True):
    """The answer to Ask."""


SoundStatus = Ready | SoundNotice | Skipped | Alive


def line(message: SoundOrder | SoundStatus) -> bytes:
    """Write a message as one line, short enough (PIPE_BUF) for a pipe to take it whole."""
    body = {"message": type(message).__name__.lower(), **to_builtins(message)}
    return json.dumps(body, ensure_ascii=False).encode() + b"\n"


def read_order(text: bytes) -> SoundOrder:
    """Read what the app says. Raises ValueError for a line that is no order."""
    match json.loads(text):
        case {"message": "schedule", "id": str(name), "sound": sound, "due": int(due)} if (
            sound in KINDS
        ):
            return Schedule(name, cast("CueKind", sound), due)
        case {"message": "cancel"}:
            return Cancel()
        case {"message": "volume", "level": int(level)} if 0 <= level <= 100:
            return Volume(level)
        case {"message": "mute", "on": bool(on)}:
            return Mute(on)
        case {"message": "ask"}:
            return Ask()
        case {"message": "quit"}:
            return Quit()
        case _:
            raise ValueError(f"the sound player doesn't know this order: {text!r}")


def read_status(text: bytes) -> SoundStatus:
    """Read what the player says. Raises ValueError for a line that is no status."""
    match json.loads(text):
        case {"message": "ready", "backend": str(backend)}:
            return Ready(backend)
        case {"message": "soundnotice", "text": str(words), "lasts": bool(lasts)}:
            return SoundNotice(words, lasts)
        case {"message": "skipped", "id": str(name)}:
            return Skipped(name)
        case {"message": "alive"}:
            return Alive()
        case _:
            raise ValueError(f"the sound player said something unknown: {text!r}")
