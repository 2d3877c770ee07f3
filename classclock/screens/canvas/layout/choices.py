"""One node in place of others, and one in its own area."""

from collections.abc import Hashable, Sequence
from operator import is_

from classclock.screens.canvas.layout.keeping import Keeping, kept_length
from classclock.screens.canvas.layout.nodes import ENDLESS, NEVER, Box, Node, Sizes, Spot, Spots
from classclock.screens.canvas.layout.parts import Name


class OneOfNode(Keeping):
    """Several nodes of the same groups, of which one stands: the first that does, of equals."""

    def __init__(self, parts: Sequence[Node]) -> None:
        self._parts = tuple(parts)
        self.bends = True  # one may be lower, another narrower
        self.groups = parts[0].groups
        self._there: tuple[Sizes, bool] = (), False

    @property
    def shape(self) -> Hashable:
        return "one of", *[part.shape for part in self._parts]

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
        self.bends, self.groups = part.bends, part.groups

    @property
    def shape(self) -> Hashable:
        return self._part.shape

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
