"""What the app and its player process say to each other: one JSON object a line.

Moments are nanoseconds of the machine's raw clock, which both processes share.
"""

import json
from dataclasses import asdict, dataclass
from typing import cast, get_args

from classclock.clock.timeline import CueKind

KINDS: tuple[CueKind, ...] = get_args(CueKind)


@dataclass(frozen=True, slots=True)
class Schedule:
    """Let this sound be heard at `due`. The same id again moves it."""

    id: str
    sound: CueKind
    due: int


@dataclass(frozen=True, slots=True)
class Cancel:
    """Drop all that is scheduled and cut off what sounds."""


@dataclass(frozen=True, slots=True)
class Volume:
    level: int
    """0 to 100."""


@dataclass(frozen=True, slots=True)
class Mute:
    on: bool


@dataclass(frozen=True, slots=True)
class Ask:
    """Are you still there?"""


@dataclass(frozen=True, slots=True)
class Quit:
    pass


Order = Schedule | Cancel | Volume | Mute | Ask | Quit


@dataclass(frozen=True, slots=True)
class Ready:
    """From now on cues go through this backend; nobody hears them if it is the silent one."""

    backend: str


@dataclass(frozen=True, slots=True)
class Notice:
    """Something the coach should know, in the coach's words."""

    text: str


@dataclass(frozen=True, slots=True)
class Skipped:
    """This cue came over a second late and was left out."""

    id: str


@dataclass(frozen=True, slots=True)
class Alive:
    """The answer to Ask."""


Status = Ready | Notice | Skipped | Alive


def line(message: Order | Status) -> bytes:
    """Write a message as one line, short enough (PIPE_BUF) for a pipe to take it whole."""
    body = {"message": type(message).__name__.lower(), **asdict(message)}
    return json.dumps(body, ensure_ascii=False).encode() + b"\n"


def read_order(text: bytes) -> Order:
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


def read_status(text: bytes) -> Status:
    """Read what the player says. Raises ValueError for a line that is no status."""
    match json.loads(text):
        case {"message": "ready", "backend": str(backend)}:
            return Ready(backend)
        case {"message": "notice", "text": str(words)}:
            return Notice(words)
        case {"message": "skipped", "id": str(name)}:
            return Skipped(name)
        case {"message": "alive"}:
            return Alive()
        case _:
            raise ValueError(f"the sound player said something unknown: {text!r}")
