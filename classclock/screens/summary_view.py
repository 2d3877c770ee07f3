"""The end of the class: every piece with its scores, and where they are kept."""

from classclock.live import LiveClass
from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.painted import Painted


class SummaryView(Painted):
    def show(self, live: LiveClass, saved: tuple[str, ...]) -> None:
        """Show all pieces. `saved`: the paths of the results, as they are to be read."""
        self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
