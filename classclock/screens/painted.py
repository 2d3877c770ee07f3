"""A widget that is a drawing: painted once for what it shows and its size, and kept."""

from textual.geometry import Region, Size
from textual.strip import Strip
from textual.widget import Widget

from classclock.screens.drawing.cells import Drawing, in_ascii, place, strips
from classclock.screens.look import Look


class Painted(Widget):
    """Its drawing comes from `paint`; `repaint` says that what it shows has changed."""

    def __init__(self, look: Look, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id, classes=classes)
        self.look = look
        self._painted: tuple[Strip, ...] = ()
        self._painted_for: Size | None = None

    def paint(self, columns: int, rows: int) -> Drawing:
        """The drawing for a box of this size; what is left of the box is filled with ground."""
        raise NotImplementedError

    def repaint(self) -> None:
        self._painted_for = None
        self.refresh()

    def render_lines(self, crop: Region) -> list[Strip]:
        """The rows as they are kept: there is no border to add, and no colour to change."""
        size = self.size
        if not self.look.terminal.true_colour or self.outer_size != size:
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
            if not self.look.terminal.block_characters:
                drawn = in_ascii(drawn)
            self._painted = strips(drawn)
            self._painted_for = size
        return self._painted
