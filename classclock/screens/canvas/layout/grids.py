"""Rows of cells as a node, in columns that share their widths."""

from collections.abc import Hashable, Iterable, Iterator, Sequence
from typing import NamedTuple

from classclock.screens.canvas.layout.columns import Column, Extent
from classclock.screens.canvas.layout.keeping import Keeping, kept_length, kept_sizes
from classclock.screens.canvas.layout.nodes import (
    ENDLESS,
    NEVER,
    Box,
    Node,
    Sizes,
    Spot,
    Spots,
    fewest,
)
from classclock.screens.canvas.layout.parts import Grid


class _Rows(Keeping):
    """The rows of a grid as one is: how high, how wide its columns. Kept for all its ways."""

    def __init__(self, columns: Sequence[Column], gap: int) -> None:
        self.columns = tuple(columns)
        self._gap = gap
        self.bends = any(column.bends for column in columns)
        self.groups = frozenset[int]().union(*(column.groups for column in self.columns))
        self.shown = frozenset[int]().union(*(column.shown for column in self.columns))

    @kept_sizes
    def extent(self, sizes: Sizes) -> Extent:
        each = [column.extent(sizes) for column in self.columns]
        least, whole = self._beside([e.least for e in each]), self._beside([e.whole for e in each])
        return Extent(least, whole, max([e.high for e in each], default=0))

    def _beside(self, wides: Iterable[int]) -> int:
        shown = [wide for wide in wides if wide]
        return min(NEVER, sum(shown) + self._gap * max(0, len(shown) - 1))

    @kept_length
    def high(self, columns: int, sizes: Sizes) -> int:
        """A row's height where it is so wide."""
        least, whole, high, _ = self.extent(sizes)
        if least > columns:
            return NEVER
        if whole <= columns:
            return high
        most = max(column.high(column.extent(sizes).least, sizes) for column in self.columns)
        return fewest(high, most, lambda high: self.wide(high, sizes) <= columns)

    @kept_length
    def wide(self, high: int, sizes: Sizes) -> int:
        least, whole, lowest, _ = self.extent(sizes)
        if lowest > high:
            return NEVER
        return least if least == whole else self._beside(self.widths(high, sizes))

    def widths(self, high: int, sizes: Sizes) -> tuple[int, ...]:
        """Each column's least width in rows of such a height."""
        return tuple([column.wide(high, sizes) for column in self.columns])

    def stand(self, columns: int, high: int, sizes: Sizes) -> bool:
        """Whether it is enough for a row."""
        least, whole, lowest, _ = self.extent(sizes)
        if least > columns or lowest > high:
            return False
        return whole <= columns or self.wide(high, sizes) <= columns


class _Way(NamedTuple):
    """How a table's rows stand on a page: so many columns of them, of so many rows each."""

    across: int
    down: int


class GridNode(Keeping):
    """A table in one or several ways: what its rows take is looked up once for all of them."""

    def __init__(
        self, grid: Grid, rows: _Rows, under: Column, ways: Sequence[_Way], shown: int
    ) -> None:
        self._grid, self._rows, self._under, self._ways = grid, rows, under, tuple(ways)
        self._shown = shown
        """Rows to a page; the first has all of them."""
        self.bends = rows.bends or under.bends or len(ways) > 1
        self.groups = rows.groups | under.groups
        self._shown_groups = [*rows.shown, *under.shown]

    @property
    def shape(self) -> Hashable:
        return "grid", id(self)

    @classmethod
    def of(cls, grid: Grid, columns: Sequence[Column], under: Column) -> "GridNode":
        return cls(grid, _Rows(columns, grid.gap), under, (), 0)

    def on(self, pages: int) -> "GridNode":
        """The same on so many pages."""
        shown = max(1, -(-len(self._grid.rows) // pages))
        ways = [_Way(across, -(-shown // across)) for across in self._grid.across]
        return GridNode(self._grid, self._rows, self._under, ways, shown)

    def there(self, sizes: Sizes) -> bool:
        return any(map(sizes.__getitem__, self._shown_groups))

    def _each(self, columns: int, across: int) -> int:
        return (columns - self._grid.between * (across - 1)) // across

    def _row_height(self, each: int, sizes: Sizes) -> int:
        return min(NEVER, self._rows.high(each, sizes) + self._under.high(each, sizes))

    def _all_rows(self, columns: int, sizes: Sizes, way: _Way) -> int:
        each = self._each(columns, way.across)
        return min(NEVER, self._row_height(each, sizes) * way.down)

    @kept_length
    def rows(self, columns: int, sizes: Sizes) -> int:
        return min(self._all_rows(columns, sizes, way) for way in self._ways)

    @kept_length
    def columns(self, rows: int, sizes: Sizes) -> int:
        if not self.there(sizes):
            return 0
        each = [
            self._row_columns(rows // down, sizes) * across + self._grid.between * (across - 1)
            for across, down in self._ways
            if rows >= down
        ]
        return min([NEVER, *each])

    def _row_columns(self, high: int, sizes: Sizes) -> int:
        if not self._under.parts:
            return self._rows.wide(high, sizes)
        row, below = self._rows.extent(sizes), self._under.extent(sizes)
        least, most = max(row.least, below.least), max(row.whole, below.whole)
        return fewest(least, most, lambda wide: self._row_stands(wide, high, sizes))

    def _standing(self, columns: int, rows: int, sizes: Sizes) -> Iterator[_Way]:
        for way in self._ways:
            if self._row_stands(self._each(columns, way.across), rows // way.down, sizes):
                yield way

    def _row_stands(self, each: int, high: int, sizes: Sizes) -> bool:
        if not self._under.parts:
            return self._rows.stand(each, high, sizes)
        left = high - self._rows.high(each, sizes)
        return left >= 0 and self._under.stands(each, left, sizes)

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        return next(self._standing(columns, rows, sizes), None) is not None

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        ways = tuple(self._standing(columns, rows, sizes))
        if not ways or ways == self._ways:
            return self if ways else None
        return GridNode(self._grid, self._rows, self._under, ways, self._shown)

    def _way(self, box: Box, sizes: Sizes) -> _Way:
        way = next(self._standing(box.width, box.height, sizes), None)
        return way or min(self._ways, key=lambda one: self._all_rows(box.width, sizes, one))

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        ways = self._ways if box.width >= ENDLESS else (self._way(box, sizes),)
        high = max(self._all_rows(box.width, sizes, way) for way in ways)
        return box.width, min(box.height, 2 * high)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        across, down = self._way(box, sizes)
        each = self._each(box.width, across)
        high = self._rows.high(each, sizes)
        row_height = self._row_height(each, sizes)
        if not row_height:
            return
        pitch = max(row_height, min(2 * row_height, box.height // down))
        cells = self._cells(each, high, sizes)
        first = page * self._shown
        on_page = range(first, min(len(self._grid.rows), first + self._shown))
        for at, number in enumerate(on_page):
            x = box.x + (at // down) * (each + self._grid.between)
            y = box.y + (at % down) * pitch
            if self._grid.name:
                spots[self._grid.name, number] = Spot(Box(x, y, each, row_height))
            for right, wide, column in cells:
                column.parts[number].place(Box(x + right, y, wide, high), sizes, spots, page)
            if self._under.parts:
                below = Box(x, y + high, each, row_height - high)
                self._under.parts[number].place(below, sizes, spots, page)

    def _cells(self, each: int, high: int, sizes: Sizes) -> list[tuple[int, int, Column]]:
        """Where in a row each column begins, and how wide it is, with what is left shared out."""
        cells = []
        spare, x = each - self._rows.wide(high, sizes), 0
        for least, column in zip(self._rows.widths(high, sizes), self._rows.columns, strict=True):
            if not least:
                continue
            more = 0
            if spare > 0:
                wish = column.wished(Box(0, 0, least + spare, high), sizes)
                more = max(0, min(wish - least, spare))
                spare -= more
            cells.append((x, least + more, column))
            x += least + more + self._grid.gap
        return cells
