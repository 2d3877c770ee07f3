"""The coach's own screen as plain values: the wall's head, everybody, lines beside them."""

from typing import Literal

from msgspec import Struct

from classclock.wall.wall_content import WallContent

WordTone = Literal["doubtful", "cheer", "plain", "quiet"]
"""To be looked at; good news; what is so; what may wait."""
SectionName = Literal["asked", "entries", "plan", "notes"]


class LaneWords(Struct, frozen=True):
    """Something about somebody, in a few words."""

    words: str
    tone: WordTone = "plain"


class CoachLane(Struct, frozen=True):
    """Everything about one lane, or about one person where there are no lanes."""

    key: str
    name: str
    score: str = ""
    short_score: str = ""
    """Where there is no room for that."""
    rooms: tuple[str, str] = ("", "")
    """The widest that each of them may come to be while the piece runs."""
    signs: str = ""
    """What is said of them in signs, for where there is no room for words."""
    about: tuple[LaneWords, ...] = ()
    """The weightiest first."""
    selected: bool = False
    out: bool = False
    """Has finished, stopped, or left."""


class CoachLine(Struct, frozen=True):
    words: str
    at: str = ""
    """Whose it is, or when it was: stands before the words."""
    keys: str = ""
    """What to type."""
    tone: WordTone = "plain"


class CoachSection(Struct, frozen=True):
    """Lines under one heading. Where not all have room the last ones go, and it says how many."""

    name: SectionName
    heading: str
    lines: tuple[CoachLine, ...]
    over_keys: str = ""
    """What the keys at the ends of the lines do, or how it stands."""


class CoachContent(Struct, frozen=True):
    head: WallContent
    """The clock and what is done. Without a clock its `clock` is empty."""
    lanes: tuple[CoachLane, ...]
    sections: tuple[CoachSection, ...]
    clears: bool = False
    """Whether what is done is to be read before the start: on the board, and in the count-in."""
