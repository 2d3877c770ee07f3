"""Whether parts of given sizes stand in a box: how narrow they can be, and how low.

`sizes` has each group's size, 0 for one that is left out. Lengths are whole numbers; `NEVER` is
what no box has. Of a wider box every node takes as many rows or fewer, and the other way round.
"""

from collections.abc import Callable, Hashable, Iterable
from typing import NamedTuple, Protocol

from classclock.screens.canvas.layout.parts import Across, Name

NEVER = 1_000_000
Sizes = tuple[int, ...]


class Box(NamedTuple):
    """From the upper left corner of the screen, or of what it is part of."""

    x: int
    y: int
    width: int
    height: int


class Spot(NamedTuple):
    """Where a part stands. A drawn thing has the size 0 and no lines."""

    box: Box
    size: int = 0
    lines: tuple[str, ...] = ()
    across: Across = "left"


Spots = dict[Name, Spot]


class Node(Protocol):
    bends: bool
    """Whether it takes more rows where it is narrower."""
    groups: frozenset[int]
    """Whose sizes it depends on."""
    shape: Hashable
    """Those of one shape measure the same."""

    def rows(self, columns: int, sizes: Sizes, /) -> int:
        """The fewest rows in so many columns; 0 where nothing of it is there."""

    def columns(self, rows: int, sizes: Sizes, /) -> int:
        """The fewest columns in so many rows."""

    def stands(self, columns: int, rows: int, sizes: Sizes, /) -> bool:
        """Whether so many are enough: what `rows` and `columns` say, but quicker."""

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        """Columns and rows that it would fill at most, of a box."""

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        """Put its spots into a box in which it stands; of what is paged those of this page."""


def fewest(low: int, high: int, enough: Callable[[int], bool]) -> int:
    """The least from `low` to `high` that is enough, where more of it always is; else `NEVER`."""
    if low > high or not enough(high):
        return NEVER
    while low < high:
        middle = (low + high) // 2
        low, high = (low, middle) if enough(middle) else (middle + 1, high)
    return low


class KeptSizes:
    """What was worked out for its own groups' sizes and a length."""

    def __init__(self, groups: Iterable[int], work_out: Callable[[int, Sizes], int]) -> None:
        self._groups, self._work_out = tuple(groups), work_out
        self._kept: dict[tuple[int, ...], int] = {}

    def __call__(self, length: int, sizes: Sizes) -> int:
        at = (length, *[sizes[group] for group in self._groups])
        found = self._kept.get(at)
        if found is None:
            found = self._kept[at] = self._work_out(length, sizes)
        return found
