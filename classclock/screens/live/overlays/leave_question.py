"""Whether to leave a class that isn't over. No letter and no ctrl key answers it."""

from textual.message import Message

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.overlays.asked_box import AtTheFoot, BoxQuestion, draw_asked


class LeaveQuestion(Painted, AtTheFoot):
    running = False

    class Leave(Message):
        pass

    def ask(self, *, running: bool) -> None:
        self.running = running
        self.display = True
        self.repaint()

    def offer(self, sign: str) -> bool:
        """Whether this sign answered it: enter leaves, escape stays. Taps go through."""
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        self.display = False
        if sign == "<enter>":
            self.post_message(self.Leave())
        return True

    def paint(self, columns: int, rows: int) -> Drawing:
        kept = "The clock runs on" if self.running else "All is kept"
        question = f"{kept}: classclock resume rejoins this class."
        foot = "enter leaves, escape stays; taps still count"
        return draw_asked(
            BoxQuestion(question, "Leave this class?", foot, caret=False), columns, rows, self.look
        )
