"""Whether parts of given sizes stand in a box: how narrow they can be, and how low.

`sizes` has each group's size, 0 for one that is left out. Lengths are whole numbers; `NEVER` is
what no box has. Of a wider box every node takes as many rows or fewer, and the other way round.
"""

from collections.abc import Callable, Iterable, Sequence
from typing import NamedTuple, Protocol

from classclock.screens.canvas.layout.breaking import lines_of, unbroken
from classclock.screens.canvas.layout.measure import Measure
from classclock.screens.canvas.layout.parts import Across, Drawn, Grid, Name, Written

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

    def rows(self, columns: int, sizes: Sizes, /) -> int:
        """The fewest rows in so many columns; 0 where nothing of it is there."""

    def columns(self, rows: int, sizes: Sizes, /) -> int:
        """The fewest columns in so many rows."""

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


class _Kept:
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


class WrittenNode:
    def __init__(self, text: Written, group: int, measure: Measure) -> None:
        self.text, self.group, self._measure = text, group, measure
        self.groups = frozenset((group,))
        self._words = unbroken(text.words)
        self.bends = text.breaks and len(self._words) > 1
        self._wide: dict[int, tuple[int, int]] = {}
        self._rows: dict[tuple[int, int], int] = {}

    def widths(self, size: int) -> tuple[int, int]:
        """The columns of its widest word, and of all of it in one line."""
        if size not in self._wide:
            whole = self._measure.columns(self.text.words, size)
            single = self._measure.columns
            least = max(single(word, size) for word in self._words) if self.bends else whole
            self._wide[size] = min(least, whole), whole
        return self._wide[size]

    def rows(self, columns: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        if not size or not self._words:
            return 0
        least, whole = self.widths(size)
        if whole <= columns:
            return size
        if least > columns:
            return NEVER
        at = size, columns
        if at not in self._rows:
            self._rows[at] = size * len(lines_of(self.text.words, columns, size, self._measure))
        return self._rows[at]

    def columns(self, rows: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        if not size or not self._words:
            return 0
        if rows < size:
            return NEVER
        least, whole = self.widths(size)
        if not self.bends or rows < 2 * size:
            return whole
        return fewest(least, whole, lambda wide: self.rows(wide, sizes) <= rows)

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        size = sizes[self.group]
        if not size or not self._words:
            return 0, 0
        return self.widths(size)[1], self.rows(box.width, sizes)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:  # noqa: ARG002  as all nodes
        size = sizes[self.group]
        if not size or not self._words:
            return
        words = self.text.words
        whole = not self.bends or self.widths(size)[1] <= box.width
        lines = (words,) if whole else lines_of(words, box.width, size, self._measure)
        spots[self.text.name] = Spot(box, size, lines, self.text.across)


class DrawnNode:
    bends = False

    def __init__(self, drawn: Drawn, group: int) -> None:
        self._drawn, self._group = drawn, group
        self.groups = frozenset((group,))

    def rows(self, columns: int, sizes: Sizes) -> int:
        wide, high = self._drawn.least
        if not sizes[self._group]:
            return 0
        return high if columns >= wide else NEVER

    def columns(self, rows: int, sizes: Sizes) -> int:
        wide, high = self._drawn.least
        if not sizes[self._group]:
            return 0
        return wide if rows >= high else NEVER

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:  # noqa: ARG002  as all nodes
        return self._drawn.wished if sizes[self._group] else (0, 0)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:  # noqa: ARG002
        if sizes[self._group]:
            wide, high = self._drawn.wished
            shown = Box(box.x, box.y, min(box.width, wide), min(box.height, high))
            spots[self._drawn.name] = Spot(shown)


class StackNode:
    def __init__(self, parts: Sequence[Node], gap: int, air: int, *, middle: bool) -> None:
        self._parts, self._gap, self._air, self._middle = tuple(parts), gap, air, middle
        self.bends = any(part.bends for part in parts)
        self.groups = frozenset[int]().union(*(part.groups for part in parts))
        self.rows = _Kept(self.groups, self._rows)
        self.columns = _Kept(self.groups, self._columns)

    def _rows(self, columns: int, sizes: Sizes) -> int:
        each = [high for part in self._parts if (high := part.rows(columns, sizes))]
        return min(NEVER, sum(each) + self._gap * max(0, len(each) - 1))

    def _columns(self, rows: int, sizes: Sizes) -> int:
        if self.rows(NEVER, sizes) > rows:
            return NEVER
        widest = max((part.columns(NEVER, sizes) for part in self._parts), default=0)
        if not self.bends or self.rows(widest, sizes) <= rows:
            return widest
        whole = self.wished(Box(0, 0, NEVER, NEVER), sizes)[0]
        return fewest(widest, whole, lambda wide: self.rows(wide, sizes) <= rows)

    def _there(self, columns: int, sizes: Sizes) -> list[tuple[Node, int]]:
        each = ((part, part.rows(columns, sizes)) for part in self._parts)
        return [(part, high) for part, high in each if high]

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        there = self._there(box.width, sizes)
        each = [part.wished(box, sizes) for part, _ in there]
        between = (self._gap + self._air) * max(0, len(each) - 1)
        return max((wide for wide, _ in each), default=0), sum(h for _, h in each) + between

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        there = self._there(box.width, sizes)
        between = max(0, len(there) - 1)
        spare = max(0, box.height - sum(high for _, high in there) - self._gap * between)
        each = []
        for part, high in there:
            more = part.wished(Box(0, 0, box.width, high + spare), sizes)[1] - high
            more = max(0, min(more, spare))
            spare -= more
            each.append(high + more)
        air = min(self._air * between, spare)
        y = box.y + ((spare - air) // 2 if self._middle else 0)
        for number, ((part, _), high) in enumerate(zip(there, each, strict=True)):
            part.place(Box(box.x, y, box.width, high), sizes, spots, page)
            y += high + self._gap
            y += air * (number + 1) // between - air * number // between if between else 0


class BesideNode:
    def __init__(self, parts: Sequence[Node], gap: int) -> None:
        self._parts, self._gap = tuple(parts), gap
        self.bends = any(part.bends for part in parts)
        self.groups = frozenset[int]().union(*(part.groups for part in parts))
        self.rows = _Kept(self.groups, self._rows)
        self.columns = _Kept(self.groups, self._columns)

    def _columns(self, rows: int, sizes: Sizes) -> int:
        each = [wide for part in self._parts if (wide := part.columns(rows, sizes))]
        return min(NEVER, sum(each) + self._gap * max(0, len(each) - 1))

    def _rows(self, columns: int, sizes: Sizes) -> int:
        least = max((part.rows(NEVER, sizes) for part in self._parts), default=0)
        if self.stands(columns, least, sizes):
            return least
        if not self.bends:
            return NEVER
        most = max(part.rows(part.columns(NEVER, sizes), sizes) for part in self._parts)
        return fewest(least + 1, most, lambda high: self.stands(columns, high, sizes))

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        """Whether it does in a box of this size: quicker than to ask how low it could be."""
        last = max(self._parts, key=lambda part: (part.bends, len(part.groups)))
        others = [part.columns(rows, sizes) for part in self._parts if part is not last]
        left = columns - sum(wide + self._gap for wide in others if wide)
        if not last.rows(NEVER, sizes):
            return left + self._gap >= 0
        return left >= 0 and stands(last, left, rows, sizes)

    def _there(self, rows: int, sizes: Sizes) -> list[tuple[Node, int]]:
        each = ((part, part.columns(rows, sizes)) for part in self._parts)
        return [(part, wide) for part, wide in each if wide]

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        each = [part.wished(box, sizes) for part, _ in self._there(box.height, sizes)]
        between = self._gap * max(0, len(each) - 1)
        return sum(wide for wide, _ in each) + between, max((high for _, high in each), default=0)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        there = self._there(box.height, sizes)
        between = self._gap * max(0, len(there) - 1)
        spare = max(0, box.width - sum(wide for _, wide in there) - between)
        x = box.x
        for part, wide in there:
            most = Box(0, 0, wide + spare, box.height)
            more = max(0, min(part.wished(most, sizes)[0] - wide, spare))
            spare -= more
            part.place(Box(x, box.y, wide + more, box.height), sizes, spots, page)
            x += wide + more + self._gap


class OneOfNode:
    """Several nodes of the same groups, of which one stands: the first that does, of equals."""

    def __init__(self, parts: Sequence[Node]) -> None:
        self._parts = tuple(parts)
        self.bends = True  # one may be lower, another narrower
        self.groups = parts[0].groups
        self.rows = _Kept(self.groups, self._rows)
        self.columns = _Kept(self.groups, self._columns)

    def _rows(self, columns: int, sizes: Sizes) -> int:
        return min(part.rows(columns, sizes) for part in self._parts)

    def _columns(self, rows: int, sizes: Sizes) -> int:
        return min(part.columns(rows, sizes) for part in self._parts)

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        return any(stands(part, columns, rows, sizes) for part in self._parts)

    def _shown(self, box: Box, sizes: Sizes) -> Node:
        for part in self._parts:
            if stands(part, box.width, box.height, sizes):
                return part
        return min(self._parts, key=lambda part: part.rows(box.width, sizes))

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        if box.width < NEVER:
            return self._shown(box, sizes).wished(box, sizes)
        each = [part.wished(box, sizes) for part in self._parts]  # what any of them could fill
        return max(wide for wide, _ in each), max(high for _, high in each)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        self._shown(box, sizes).place(box, sizes, spots, page)


def stands(node: Node, columns: int, rows: int, sizes: Sizes) -> bool:
    """Whether it does in a box of this size."""
    if isinstance(node, BesideNode | OneOfNode):
        return node.stands(columns, rows, sizes)
    return node.rows(columns, sizes) <= rows


class _Column:
    """The cells of one column of a table."""

    def __init__(self, parts: Sequence[Node]) -> None:
        self.parts = tuple(parts)
        self.groups = frozenset[int]().union(*(part.groups for part in parts))
        self.high = _Kept(self.groups, self._high)
        self.wide = _Kept(self.groups, self._wide)

    def _high(self, columns: int, sizes: Sizes) -> int:
        return max((part.rows(columns, sizes) for part in self.parts), default=0)

    def _wide(self, rows: int, sizes: Sizes) -> int:
        return max((part.columns(rows, sizes) for part in self.parts), default=0)


class _Rows:
    """The rows of a table as one is: how high, and its columns' widths. Kept for all its ways."""

    def __init__(self, columns: Sequence[Sequence[Node]], gap: int) -> None:
        self.columns = tuple(map(_Column, columns))
        self._gap = gap
        self.bends = any(part.bends for column in columns for part in column)
        self.groups = frozenset[int]().union(*(column.groups for column in self.columns))
        self.least = _Kept(self.groups, self._least)
        self.high = _Kept(self.groups, self._high)
        self.wide = _Kept(self.groups, self._wide)

    def _least(self, columns: int, sizes: Sizes) -> int:
        return max((column.high(columns, sizes) for column in self.columns), default=0)

    def _high(self, columns: int, sizes: Sizes) -> int:
        """A row's height where it is so wide."""
        least = self.least(NEVER, sizes)
        if self.wide(least, sizes) <= columns:
            return least
        if not self.bends:
            return NEVER
        narrowest = (
            part.rows(part.columns(NEVER, sizes), sizes)
            for column in self.columns
            for part in column.parts
        )
        return fewest(least, max(narrowest), lambda high: self.wide(high, sizes) <= columns)

    def _wide(self, high: int, sizes: Sizes) -> int:
        shown = [wide for wide in self.widths(high, sizes) if wide]
        return min(NEVER, sum(shown) + self._gap * max(0, len(shown) - 1))

    def widths(self, high: int, sizes: Sizes) -> tuple[int, ...]:
        """Each column's least width in rows of such a height."""
        return tuple([column.wide(high, sizes) for column in self.columns])


class GridNode:
    def __init__(
        self,
        table: Grid,
        rows: _Rows,
        under: Sequence[Node],
        *,
        across: int = 1,
        pages: int = 1,
    ) -> None:
        self._table, self._rows, self._under = table, rows, tuple(under)
        self._across = across
        self._count = len(table.rows)
        self._shown = max(1, -(-self._count // pages))
        """Rows to a page; the first has all of them."""
        self.pages = max(1, -(-self._count // self._shown))
        self._down = -(-self._shown // across)
        self.bends = rows.bends or any(part.bends for part in self._under)
        below = {group for part in self._under for group in part.groups}
        self.groups = rows.groups | below

    @classmethod
    def of(cls, table: Grid, rows: Sequence[Sequence[Node]], under: Sequence[Node]) -> "GridNode":
        return cls(table, _Rows(list(zip(*rows, strict=True)), table.gap), under)

    def as_(self, across: int, pages: int) -> "GridNode":
        """The same rows in so many columns and pages."""
        return GridNode(self._table, self._rows, self._under, across=across, pages=pages)

    def _each(self, columns: int) -> int:
        return (columns - self._table.between * (self._across - 1)) // self._across

    def _row_height(self, each: int, sizes: Sizes) -> int:
        under = max((part.rows(each, sizes) for part in self._under), default=0)
        return min(NEVER, self._rows.high(each, sizes) + under)

    def rows(self, columns: int, sizes: Sizes) -> int:
        return min(NEVER, self._row_height(self._each(columns), sizes) * self._down)

    def columns(self, rows: int, sizes: Sizes) -> int:
        if not self._row_height(NEVER, sizes):
            return 0
        below = max((part.columns(NEVER, sizes) for part in self._under), default=0)
        least = most = max(self._rows.wide(NEVER, sizes), below)
        if self.bends:
            wide = (part.wished(Box(0, 0, NEVER, NEVER), sizes)[0] for part in self._under)
            most = max(least, self._rows.wide(self._rows.least(NEVER, sizes), sizes), *wide)
        each = fewest(least, most, lambda wide: self._row_height(wide, sizes) * self._down <= rows)
        return min(NEVER, each * self._across + self._table.between * (self._across - 1))

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        high = self._row_height(self._each(box.width), sizes)
        return box.width, min(box.height, 2 * high * self._down)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        each = self._each(box.width)
        high = self._rows.high(each, sizes)
        row_height = self._row_height(each, sizes)
        if not row_height:
            return
        pitch = max(row_height, min(2 * row_height, box.height // self._down))
        first = page * self._shown
        for at, number in enumerate(range(first, min(self._count, first + self._shown))):
            x = box.x + (at // self._down) * (each + self._table.between)
            y = box.y + (at % self._down) * pitch
            self._place_row(number, Box(x, y, each, high), sizes, spots, page)
            if self._under:
                below = Box(x, y + high, each, row_height - high)
                self._under[number].place(below, sizes, spots, page)

    def _place_row(self, number: int, box: Box, sizes: Sizes, spots: Spots, page: int) -> None:
        widths = self._rows.widths(box.height, sizes)
        spare, x = box.width - self._rows.wide(box.height, sizes), box.x
        for wide, column in zip(widths, self._rows.columns, strict=True):
            if not wide:
                continue
            most = Box(0, 0, wide + spare, box.height)
            wish = max(part.wished(most, sizes)[0] for part in column.parts)
            more = max(0, min(wish - wide, spare))
            spare -= more
            column.parts[number].place(Box(x, box.y, wide + more, box.height), sizes, spots, page)
            x += wide + more + self._table.gap
