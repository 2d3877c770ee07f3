"""Standing troubles, a row each, for as long as they last."""

from classclock.screens.canvas.cells import Drawing, above
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted


class TroubleLine(Painted):
    def __init__(self, look: Look) -> None:
        super().__init__(look)
        self.troubles: tuple[str, ...] = ()
        self.display = False

    def show(self, troubles: tuple[str, ...]) -> None:
        if troubles != self.troubles:
            self.troubles = troubles
            self.styles.height = max(1, len(troubles))
            self.display = bool(troubles)
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        theme = self.look.theme
        look = self.look.on(theme.alarm_ground, theme.alarm_ink)
        if not self.troubles:
            return look.gap(columns, rows)
        return above(*(look.text(f" ! {text}", columns, bold=True) for text in self.troubles))
