"""What the room is told where there is no class to show, or nobody runs the one that is shown."""

from pathlib import Path

from classclock.tally.keys.key_help import KeyLine
from classclock.tally.record import Phase
from classclock.units.printable import printable

WAITS = "Waiting for the next class"
CANNOT = "This screen can't show the class"
KEYS = ("? keys", "ctrl+q leaves")
FOLLOWING_KEYS: tuple[KeyLine, ...] = (
    KeyLine("class", "ctrl+q", "leave: the class isn't touched, and this can be started again"),
    KeyLine("class", "?", "these keys; all others are the coach's, at the class's own screen"),
)
_LONGEST = 300


def where_words(folder: Path) -> str:
    """Which folder it waits for."""
    return f"classclock run starts one in {printable(str(folder), _LONGEST)}"


def alone_words(phase: Phase) -> str:
    """Of a class that nobody runs any more, though it isn't over."""
    if phase in ("count-in", "running"):
        return "Nobody counts just now: the clock goes on, keep your own count"
    return "The coach's screen is gone: one moment"
