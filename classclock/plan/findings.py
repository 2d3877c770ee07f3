"""What is wrong with a plan, in the coach's words."""

from typing import Literal

from msgspec import Struct

from classclock.units.printable import printable

Level = Literal["error", "hint"]
Path = tuple[str | int, ...]
"""Where something stands in the plan's values: `("segment", 2, "station", 0, "reps")`."""


class Finding(Struct, frozen=True):
    """One fault of one file. Its text is safe for a terminal."""

    file: str
    line: int
    """From 1; 0 speaks of the file as a whole."""
    segment: str | None
    what: str
    instead: str
    """What to write or do instead: a sentence."""
    level: Level = "error"

    def __str__(self) -> str:
        """Say it in one line: file, line, segment, what is wrong, and what to write instead."""
        place = f"{self.file}:{self.line}" if self.line else self.file
        segment = f"{self.segment}: " if self.segment else ""
        hint = "hint: " if self.level == "hint" else ""
        stop = "" if self.what.endswith("?") else "."
        return printable(f"{place}  {hint}{segment}{self.what}{stop} {self.instead}.", longest=1000)


class Fault(Struct, frozen=True):
    """A fault in the plan's values, before its line is known."""

    path: Path
    what: str
    instead: str
    level: Level = "error"
    missing: tuple[str, ...] = ()
    """The keys of which one isn't there; a line that couldn't be read may have held it."""
    meant: str | None = None
    """For an unknown key, the key that was meant: that one isn't missing, then."""


class LineFault(Struct, frozen=True):
    """A fault in how the file is written: TOML itself can't be read there."""

    line: int
    what: str
    instead: str
