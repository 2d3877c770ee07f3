"""Whether parts of given sizes stand in a box: how narrow they can be, and how low.

`sizes` has each group's size, 0 for one that is left out. Lengths are whole numbers; `NEVER` is
what no box has. Of a wider box every node takes as many rows or fewer, and the other way round.
"""

from collections.abc import Callable, Hashable
from typing import NamedTuple, Protocol

from classclock.screens.canvas.layout.parts import Across, Name

NEVER = 1_000_000
ENDLESS = NEVER - 1
"""As much room as anything could ask for: what takes `NEVER` doesn't stand in it either."""
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
    groups: frozenset[int]
    """Whose sizes it depends on."""
    bends: bool
    """Whether it takes more rows where it is narrower."""

    @property
    def shape(self) -> Hashable:
        """Those of one shape measure the same."""

    def there(self, sizes: Sizes, /) -> bool:
        """Whether it takes any room."""

    def rows(self, columns: int, sizes: Sizes, /) -> int:
        """The fewest rows in so many columns; 0 where it isn't there."""

    def columns(self, rows: int, sizes: Sizes, /) -> int:
        """The fewest columns in so many rows."""

    def stands(self, columns: int, rows: int, sizes: Sizes, /) -> bool:
        """Whether so many are enough: what `rows` and `columns` say, but quicker."""

    def left(self, columns: int, rows: int, sizes: Sizes, /) -> "Node | None":
        """Those of its ways that stand there: no other stands in a smaller box or larger sizes."""

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
