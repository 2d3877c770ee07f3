"""A widget that shows what a function draws."""

from collections.abc import Callable

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted


class DrawnView(Painted):
    def __init__(self, look: Look, draw: Callable[[int, int, Look], Drawing]) -> None:
        """`draw` takes the columns and rows of the box."""
        super().__init__(look)
        self._draw = draw

    def paint(self, columns: int, rows: int) -> Drawing:
        return self._draw(columns, rows, self.look)
