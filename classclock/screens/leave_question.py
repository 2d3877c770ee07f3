"""Whether to leave a class that isn't over. No letter and no ctrl key answers it."""

from textual.message import Message

from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.painted import Painted


class LeaveQuestion(Painted):
    class Leave(Message):
        pass

    class Stay(Message):
        pass

    def ask(self, *, running: bool) -> None:
        self.display = True
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign answered it: enter leaves, escape stays. Taps go through."""
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        self.display = False
        self.post_message(self.Leave() if sign == "<enter>" else self.Stay())
        return True

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
