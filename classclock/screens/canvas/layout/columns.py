"""The cells of a column as one, that is as wide and as high as the most of them."""

from collections.abc import Sequence
from typing import NamedTuple

from classclock.screens.canvas.layout.cells import cells_of
from classclock.screens.canvas.layout.keeping import Keeping, kept_length, kept_sizes
from classclock.screens.canvas.layout.nodes import NEVER, Box, Node, Sizes


class Extent(NamedTuple):
    """What it takes at least of a box."""

    least: int
    """Columns: in fewer it never stands."""
    whole: int
    """Columns from which on nothing is broken."""
    high: int
    """Rows then."""
    broken: Sequence[tuple[int, Node]] = ()
    """The cells that may be, and from how many columns on they aren't."""


class Column(Keeping):
    """Parts of which none is wider or higher than all of them: the cells of one column."""

    def __init__(self, parts: Sequence[Node]) -> None:
        self.parts = tuple(parts)
        self._distinct = tuple({part.shape: part for part in parts}.values())
        self.groups = frozenset[int]().union(*(part.groups for part in self._distinct))
        self._cells = cells_of(self._distinct)
        self.bends = any(part.bends for part in self._distinct)
        self.shown = frozenset(group for group in self.groups if self._shows(group))
        """The groups of which one is enough for it to be there: those with anything to show."""

    def _shows(self, group: int) -> bool:
        alone = tuple(int(one == group) for one in range(max(self.groups) + 1))
        return any(part.there(alone) for part in self._distinct)

    @kept_sizes
    def extent(self, sizes: Sizes) -> Extent:
        leasts, wholes, highs = self._cells.extents(sizes)
        each = zip(leasts, wholes, self._distinct, strict=True) if self.bends else ()
        broken = [(whole, part) for least, whole, part in each if least < whole]
        least, whole = max(leasts, default=0), max(wholes, default=0)
        return Extent(least, whole, max(highs, default=0), broken)

    @kept_length
    def high(self, columns: int, sizes: Sizes) -> int:
        least, _, high, broken = self.extent(sizes)
        if least > columns:
            return NEVER
        return max(
            [high, *[part.rows(columns, sizes) for whole, part in broken if whole > columns]]
        )

    @kept_length
    def wide(self, rows: int, sizes: Sizes) -> int:
        widest, _, high, broken = self.extent(sizes)
        if high > rows:
            return NEVER
        for whole, part in broken:
            if whole > widest and not part.stands(widest, rows, sizes):
                widest = part.columns(rows, sizes)
        return widest

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        least, _, high, broken = self.extent(sizes)
        if least > columns or high > rows:
            return False
        return all(whole <= columns or part.stands(columns, rows, sizes) for whole, part in broken)

    def wished(self, box: Box, sizes: Sizes) -> int:
        """Columns that the one that wishes for most would fill."""
        return max([part.wished(box, sizes)[0] for part in self._distinct], default=0)
