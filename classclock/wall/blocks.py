"""Completed parts of a lane's work, one behind the other."""

from typing import Literal

from msgspec import Struct

BlockKind = Literal["counted", "filled in", "doubtful"]


class Block(Struct, frozen=True):
    """One completed part, up to where it ended on the axis (ms, or reps)."""

    end: int
    kind: BlockKind = "counted"
