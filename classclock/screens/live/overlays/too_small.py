"""What the window needs, where it is too small for a wall."""

from textwrap import wrap

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.canvas.painted import Painted


def is_too_small(columns: int, rows: int) -> bool:
    return columns < LEAST_COLUMNS or rows < LEAST_ROWS


class TooSmall(Painted):
    def paint(self, columns: int, rows: int) -> Drawing:
        words = (
            f"classclock needs {LEAST_COLUMNS} columns and {LEAST_ROWS} rows; "
            f"this window has {columns} x {rows}: make it larger or the letters smaller"
        )
        return above(*(self.look.text(line, columns, bold=True) for line in wrap(words, columns)))
