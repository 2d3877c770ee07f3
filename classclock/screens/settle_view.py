"""The settle: after a piece, each lane's score, and who is still to be asked."""

from classclock.live import LiveClass
from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.look import Look
from classclock.screens.painted import Painted


class SettleView(Painted):
    """The scores of the piece that is over, the unsettled first."""

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored

    def show(self, live: LiveClass, selected: str | None, saved: tuple[str, ...] = ()) -> None:
        """Show the piece on the board as it stands. `saved`: where its results are."""
        self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
