"""A widget that is a drawing: painted once for what it shows and its size, and kept."""

from textual.strip import Strip
from textual.widget import Widget

from classclock.screens.drawing.cells import Drawing, place, strips
from classclock.screens.look import Look


class Painted(Widget):
    """Its drawing comes from `paint`; `repaint` says that what it shows has changed."""

    def __init__(self, look: Look, *, id: str | None = None, classes: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(id=id, classes=classes)
        self.look = look
        self._painted: tuple[Strip, ...] = ()
        self._painted_for: tuple[int, int] | None = None

    def paint(self, columns: int, rows: int) -> Drawing:
        """The drawing for a box of this size; what is left of the box is filled with ground."""
        raise NotImplementedError

    def repaint(self) -> None:
        self._painted_for = None
        self.refresh()

    def render_line(self, y: int) -> Strip:
        columns, rows = self.size
        if self._painted_for != (columns, rows):
            ground = self.look.theme.ground
            self._painted = strips(place(self.paint(columns, rows), columns, rows, ground))
            self._painted_for = (columns, rows)
        if y < len(self._painted):
            return self._painted[y]
        return Strip.blank(columns)
