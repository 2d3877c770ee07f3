"""Nodes one over the other, and side by side."""

from collections.abc import Hashable, Sequence
from functools import cached_property

from classclock.screens.canvas.layout.keeping import Keeping, kept_length
from classclock.screens.canvas.layout.nodes import (
    ENDLESS,
    NEVER,
    Box,
    Node,
    Sizes,
    Spots,
    fewest,
)


class _PartedNode(Keeping):
    """What stands part by part, with a gap between two of them."""

    def __init__(self, parts: Sequence[Node], gap: int, air: int = 0) -> None:
        self.parts, self.gap, self._air = tuple(parts), gap, air
        self.bends = any(part.bends for part in parts)
        self.groups = frozenset[int]().union(*[part.groups for part in parts])

    @property
    def shape(self) -> Hashable:
        return type(self).__name__, self.gap, self._air, *[part.shape for part in self.parts]

    def there(self, sizes: Sizes) -> bool:
        return any(part.there(sizes) for part in self.parts)

    @cached_property
    def _last(self) -> Node | None:
        """The part that is asked last, whether what the others leave is enough for it."""
        return max(self.parts, key=lambda part: (part.bends, len(part.groups)), default=None)

    @cached_property
    def _others(self) -> list[Node]:
        return [part for part in self.parts if part is not self._last]

    def _parts_with(self, last: Node) -> list[Node]:
        return [last if part is self._last else part for part in self.parts]


class StackNode(_PartedNode):
    def __init__(self, parts: Sequence[Node], gap: int, air: int, *, middle: bool) -> None:
        super().__init__(parts, gap, air)
        self._middle = middle

    @kept_length
    def rows(self, columns: int, sizes: Sizes) -> int:
        each = [high for part in self.parts if (high := part.rows(columns, sizes))]
        return min(NEVER, sum(each) + self.gap * max(0, len(each) - 1))

    @kept_length
    def columns(self, rows: int, sizes: Sizes) -> int:
        if self.rows(ENDLESS, sizes) > rows:
            return NEVER
        widest = max((part.columns(ENDLESS, sizes) for part in self.parts), default=0)
        if not self.bends or self.rows(widest, sizes) <= rows:
            return widest
        whole = self.wished(Box(0, 0, ENDLESS, ENDLESS), sizes)[0]
        return fewest(widest, whole, lambda wide: self.rows(wide, sizes) <= rows)

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        each = [high for part in self._others if (high := part.rows(columns, sizes))]
        if self._last is None or not self._last.there(sizes):
            return sum(each) + self.gap * max(0, len(each) - 1) <= rows
        left = rows - sum(each) - self.gap * len(each)
        return left >= 0 and self._last.stands(columns, left, sizes)

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        if self._last is None or not self._last.there(sizes):
            return self if self.stands(columns, rows, sizes) else None
        each = [high for part in self._others if (high := part.rows(columns, sizes))]
        left = rows - sum(each) - self.gap * len(each)
        last = self._last.left(columns, left, sizes) if left >= 0 else None
        if last is None or last is self._last:
            return None if last is None else self
        return StackNode(self._parts_with(last), self.gap, self._air, middle=self._middle)

    def _there(self, columns: int, sizes: Sizes) -> list[tuple[Node, int]]:
        each = ((part, part.rows(columns, sizes)) for part in self.parts)
        return [(part, high) for part, high in each if high]

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        there = self._there(box.width, sizes)
        each = [part.wished(box, sizes) for part, _ in there]
        between = (self.gap + self._air) * max(0, len(each) - 1)
        return max((wide for wide, _ in each), default=0), sum(h for _, h in each) + between

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        there = self._there(box.width, sizes)
        between = max(0, len(there) - 1)
        spare = max(0, box.height - sum(high for _, high in there) - self.gap * between)
        each = []
        for part, high in there:
            more = 0
            if spare:
                most = Box(0, 0, box.width, high + spare)
                more = max(0, min(part.wished(most, sizes)[1] - high, spare))
                spare -= more
            each.append(high + more)
        air = min(self._air * between, spare)
        y = box.y + ((spare - air) // 2 if self._middle else 0)
        for number, ((part, _), high) in enumerate(zip(there, each, strict=True)):
            part.place(Box(box.x, y, box.width, high), sizes, spots, page)
            y += high + self.gap
            y += air * (number + 1) // between - air * number // between if between else 0


class BesideNode(_PartedNode):
    @kept_length
    def columns(self, rows: int, sizes: Sizes) -> int:
        each = [wide for part in self.parts if (wide := part.columns(rows, sizes))]
        return min(NEVER, sum(each) + self.gap * max(0, len(each) - 1))

    @kept_length
    def rows(self, columns: int, sizes: Sizes) -> int:
        least = max((part.rows(ENDLESS, sizes) for part in self.parts), default=0)
        if self.stands(columns, least, sizes):
            return least
        if not self.bends:
            return NEVER
        most = max(part.rows(part.columns(ENDLESS, sizes), sizes) for part in self.parts)
        return fewest(least + 1, most, lambda high: self.stands(columns, high, sizes))

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        each = [wide for part in self._others if (wide := part.columns(rows, sizes))]
        if self._last is None or not self._last.there(sizes):
            return sum(each) + self.gap * max(0, len(each) - 1) <= columns
        left = columns - sum(each) - self.gap * len(each)
        return left >= 0 and self._last.stands(left, rows, sizes)

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        if self._last is None or not self._last.there(sizes):
            return self if self.stands(columns, rows, sizes) else None
        each = [wide for part in self._others if (wide := part.columns(rows, sizes))]
        left = columns - sum(each) - self.gap * len(each)
        last = self._last.left(left, rows, sizes) if left >= 0 else None
        if last is None or last is self._last:
            return None if last is None else self
        return BesideNode(self._parts_with(last), self.gap)

    def _there(self, rows: int, sizes: Sizes) -> list[tuple[Node, int]]:
        each = ((part, part.columns(rows, sizes)) for part in self.parts)
        return [(part, wide) for part, wide in each if wide]

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        each = [part.wished(box, sizes) for part, _ in self._there(box.height, sizes)]
        between = self.gap * max(0, len(each) - 1)
        return sum(wide for wide, _ in each) + between, max((high for _, high in each), default=0)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        there = self._there(box.height, sizes)
        between = self.gap * max(0, len(there) - 1)
        spare = max(0, box.width - sum(wide for _, wide in there) - between)
        x = box.x
        for part, wide in there:
            more = 0
            if spare:
                most = Box(0, 0, wide + spare, box.height)
                more = max(0, min(part.wished(most, sizes)[0] - wide, spare))
                spare -= more
            part.place(Box(x, box.y, wide + more, box.height), sizes, spots, page)
            x += wide + more + self.gap
