"""Texts and drawn things as nodes."""

from collections.abc import Hashable

from classclock.screens.canvas.layout.breaking import Breaking
from classclock.screens.canvas.layout.keeping import Keeping, kept_length
from classclock.screens.canvas.layout.measure import Measure
from classclock.screens.canvas.layout.nodes import NEVER, Box, Node, Sizes, Spot, Spots, fewest
from classclock.screens.canvas.layout.parts import Drawn, Written


class WrittenNode(Keeping):
    def __init__(self, text: Written, group: int, measure: Measure) -> None:
        self.text, self.group, self._measure = text, group, measure
        self.groups = frozenset((group,))
        self.empty = not text.words.strip(" ")
        self._wide: dict[int, tuple[int, int]] = {}
        self.bends = False
        if text.breaks and " " in text.words:
            self._breaking = Breaking(text.words, measure)
            self.bends = len(self._breaking) > 1

    @property
    def shape(self) -> Hashable:
        return self.group, self.text.words, self.text.breaks

    def widths(self, size: int) -> tuple[int, int]:
        """The columns of its widest word, and of all of it in one line."""
        if size not in self._wide:
            whole = self._measure.columns(self.text.words, size)
            least = self._breaking.widest(size) if self.bends else whole
            self._wide[size] = min(least, whole), whole
        return self._wide[size]

    def there(self, sizes: Sizes) -> bool:
        return bool(sizes[self.group]) and not self.empty

    def rows(self, columns: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        if not size or self.empty:
            return 0
        least, whole = self.widths(size)
        if whole <= columns:
            return size
        return NEVER if least > columns else self._rows(columns, sizes)

    @kept_length
    def _rows(self, columns: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        return size * len(self._breaking.ends(columns, size))

    def columns(self, rows: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        if not size or self.empty:
            return 0
        if rows < size:
            return NEVER
        if not self.bends or rows < 2 * size:
            return self.widths(size)[1]
        lines = rows // size
        return self.widths(size)[0] if lines >= len(self._breaking) else self._columns(lines, sizes)

    @kept_length
    def _columns(self, lines: int, sizes: Sizes) -> int:
        size = sizes[self.group]
        least, whole = self.widths(size)
        return fewest(least, whole, lambda wide: self.rows(wide, sizes) <= lines * size)

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        size = sizes[self.group]
        if not size or self.empty:
            return True
        least, whole = self.widths(size)
        if whole <= columns or rows < 2 * size:
            return whole <= columns and size <= rows
        return least <= columns and self._rows(columns, sizes) <= rows

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        return self if self.stands(columns, rows, sizes) else None

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:
        size = sizes[self.group]
        if not size or self.empty:
            return 0, 0
        return self.widths(size)[1], self.rows(box.width, sizes)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:  # noqa: ARG002  as all nodes
        size = sizes[self.group]
        if not size or self.empty:
            return
        whole = not self.bends or self.widths(size)[1] <= box.width
        lines = (self.text.words,) if whole else self._breaking.lines(box.width, size)
        spots[self.text.name] = Spot(box, size, lines, self.text.across)


class DrawnNode:
    bends = False

    def __init__(self, drawn: Drawn, group: int) -> None:
        self._drawn, self._group = drawn, group
        self.groups = frozenset((group,))

    @property
    def shape(self) -> Hashable:
        return self._group, self._drawn.least, self._drawn.wished

    def there(self, sizes: Sizes) -> bool:
        return bool(sizes[self._group]) and any(self._drawn.least)

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

    def stands(self, columns: int, rows: int, sizes: Sizes) -> bool:
        return self.rows(columns, sizes) <= rows

    def left(self, columns: int, rows: int, sizes: Sizes) -> Node | None:
        return self if self.stands(columns, rows, sizes) else None

    def wished(self, box: Box, sizes: Sizes) -> tuple[int, int]:  # noqa: ARG002  as all nodes
        return self._drawn.wished if sizes[self._group] else (0, 0)

    def place(self, box: Box, sizes: Sizes, spots: Spots, page: int = 0) -> None:  # noqa: ARG002
        if sizes[self._group]:
            wide, high = self._drawn.wished
            shown = Box(box.x, box.y, min(box.width, wide), min(box.height, high))
            spots[self._drawn.name] = Spot(shown)
