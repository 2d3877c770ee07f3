"""The keys that hold now. It takes escape alone: every other key goes where it always goes."""

from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.painted import Painted
from classclock.tally.key_actions import Phase
from classclock.tally.piece import CountsBy


class KeysOverlay(Painted):
    """`show` opens it; `?` once more goes through `turn`."""

    def show(self, counts_by: CountsBy, phase: Phase) -> None:
        self.display = True
        self.repaint()

    def turn(self) -> None:
        """The next page; after the last one it closes."""
        self.display = False

    def offer(self, sign: str) -> bool:
        """Whether this sign (`<escape>`, `n` …) was the overlay's own and is done with."""
        if not self.display or sign != "<escape>":
            return False
        self.display = False
        return True

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
