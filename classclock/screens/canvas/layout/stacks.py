"""Nodes one over the other, side by side, one in place of others, and one in its own area."""

from collections.abc import Hashable, Sequence
from functools import cached_property
from operator import is_

from classclock.screens.canvas.layout.keeping import Keeping, kept_length
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
from classclock.screens.canvas.layout.parts import Name


class _PartedNode(Keeping):
    """What stands part by part, with a gap between two of them."""

    def __init__(self, parts: Sequence[Node], gap: int, *how: Hashable) -> None:
        self.parts, self.gap = tuple(parts), gap
        self.shape: Hashable = (type(self).__name__, gap, how, *[part.shape for part in parts])
        self.bends = any(part.bends for part in parts)
        self.groups = frozenset[int]().union(*[part.groups for part in parts])

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
        self._air, self._middle = air, middle

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
            more = part.wished(Box(0, 0, box.width, high + spare), sizes)[1] - high
            more = max(0, min(more, spare))
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
            most = Box(0, 0, wide + spare, box.height)
            more = max(0, min(part.wished(most, sizes)[0] - wide, spare))
            spare -= more
            part.place(Box(x, box.y, wide + more, box.height), sizes, spots, page)
            x += wide + more + self.gap


class OneOfNode(Keeping):
    """Several nodes of the same groups, of which one stands: the first that does, of equals."""

    def __init__(self, parts: Sequence[Node]) -> None:
        self._parts = tuple(parts)
        self.shape: Hashable = ("one of", tuple(part.shape for part in parts))
        self.bends = True  # one may be lower, another narrower
        self.groups = parts[0].groups
        self._there: tuple[Sizes, bool] = (), False

    def there(self, sizes: Sizes) -> bool:
        if self._there[0] is not sizes:  # asked several times of the same
            self._there = sizes, all(part.there(sizes) for part in self._parts)
        return self._there[1]

    @kept_length
    def rows(self, columns: int, sizes: Sizes) -> int:
        fewest_rows = NEVER
        for part in self._parts:
            if part.stands(columns, fewest_rows - 1, sizes):
                fewest_rows = part.rows(columns, sizes)
        return fewest_rows

    @kept_length
    def columns(self, rows: int, sizes: Sizes) -> int:
        fewest_columns = NEVER
        for part in self._parts:
            if part.stands(fewest_columns - 1, rows, sizes):
                fewest_columns = part.columns(rows, sizes)
        return fewest_columns

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        return any(part.stands(columns, rows, sizes) for part in self._parts)

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        each = [part.left(columns, rows, sizes) for part in self._parts]
        left = [part for part in each if part is not None]
        if len(left) < 2:
            return left[0] if left else None
        return self if all(map(is_, self._parts, each)) else OneOfNode(left)

    def _shown(self, box: Box, sizes: Sizes) -> Node:
        for part in self._parts:
            if part.stands(box.width, box.height, sizes):
                return part
        return min(self._parts, key=lambda part: part.rows(box.width, sizes))

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        if box.width < ENDLESS:
            return self._shown(box, sizes).wished(box, sizes)
        each = [part.wished(box, sizes) for part in self._parts]  # what any of them could fill
        return max(wide for wide, _ in each), max(high for _, high in each)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        self._shown(box, sizes).place(box, sizes, spots, page)


class AreaNode:
    def __init__(self, name: Name, part: Node) -> None:
        self._name, self._part = name, part
        self.bends, self.groups, self.shape = part.bends, part.groups, part.shape

    def there(self, sizes: Sizes) -> bool:
        return self._part.there(sizes)

    def rows(self, columns: int, sizes: Sizes) -> int:
        return self._part.rows(columns, sizes)

    def columns(self, rows: int, sizes: Sizes) -> int:
        return self._part.columns(rows, sizes)

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        return self._part.stands(columns, rows, sizes)

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        part = self._part.left(columns, rows, sizes)
        return None if part is None else self if part is self._part else AreaNode(self._name, part)

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        return box.width, self._part.wished(box, sizes)[1]

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:
        spots[self._name] = Spot(box)
        self._part.place(box, sizes, spots, page)
