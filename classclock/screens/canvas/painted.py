"""A widget that is a drawing: painted once for what it shows and its size, and kept."""

from collections.abc import Iterable, Sequence

from rich.segment import Segment
from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

from classclock.screens.canvas.cells import Drawing, in_ascii, place, strips
from classclock.screens.canvas.look import Look


class Painted(Widget):
    """Its drawing comes from `paint`; `repaint` says that what it shows has changed."""

    def __init__(self, look: Look, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id, classes=classes)
        self.look = look
        self._painted: tuple[Strip, ...] = ()
        self._painted_for: Size | None = None

    @property
    def box(self) -> Size:
        """Its size; before it is shown for the first time that of what it stands in."""
        parent = self.parent
        return self.size or (parent.size if isinstance(parent, Widget) else self.size)

    def paint(self, columns: int, rows: int) -> Drawing:
        """The drawing for a box of this size; what is left of the box is filled with ground."""
        raise NotImplementedError

    def repaint(self) -> None:
        """Where it looks otherwise than before it is sent to the terminal anew."""
        before, size = self._painted, self.size
        if self._painted_for != size or not self.is_on_screen:
            self._painted_for = None
            self.refresh()
            return
        self._painted_for = None
        if (changed := region_changed(before, self._kept_rows(size))) is not None:
            self.refresh(changed)

    def render_lines(self, crop: Region) -> list[Strip]:
        """The rows as they are kept: there is no border to add, and no colour to change."""
        size = self.size
        if not self.look.terminal.shades or self.outer_size != size:
            return super().render_lines(crop)
        rows = list(self._kept_rows(size)[crop.y : crop.bottom])
        if crop.column_span == (0, size.width):
            return rows
        return [row.crop(*crop.column_span) for row in rows]

    def render_line(self, y: int) -> Strip:
        rows = self._kept_rows(self.size)
        return rows[y] if y < len(rows) else Strip.blank(self.size.width)

    def _kept_rows(self, size: Size) -> tuple[Strip, ...]:
        if self._painted_for != size:
            ground = self.look.theme.ground
            drawn = place(self.paint(*size), *size, ground)
            if self.look.terminal.dots is None:
                drawn = in_ascii(drawn)
            self._painted = strips(drawn)
            self._painted_for = size
        return self._painted


def region_changed(before: Sequence[Strip], after: Sequence[Strip]) -> Region | None:
    """The least part of a box outside of which it looks as before; None: all does.

    Both are as many rows, all of one width.
    """
    changed = [
        (y, one, other)
        for y, (one, other) in enumerate(zip(before, after, strict=True))
        if one != other
    ]
    if not changed:
        return None
    left = min(_alike(one, other) for _, one, other in changed)
    right = min(_alike(reversed(list(one)), reversed(list(other))) for _, one, other in changed)
    top, columns = changed[0][0], after[0].cell_length
    return Region(left, top, columns - left - right, changed[-1][0] - top + 1)


def _alike(one: Iterable[Segment], other: Iterable[Segment]) -> int:
    """How many cells are the same before the first segment that isn't."""
    cells = 0
    for segment, another in zip(one, other, strict=False):
        if segment != another:
            break
        cells += segment.cell_length
    return cells
