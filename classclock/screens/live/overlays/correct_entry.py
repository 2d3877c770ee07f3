"""Correcting a score, with its reason: two questions, one after the other."""

from dataclasses import dataclass

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.controls.line_entry import LineEntry, unread_by_the_room
from classclock.screens.controls.meant import Meant
from classclock.screens.live.overlays.asked_box import AtTheFoot, BoxQuestion, draw_asked


class CorrectEntry(LineEntry, AtTheFoot):
    """Has the focus while it is open. The screen answers `Corrected` with `refuse` or `close`."""

    @dataclass
    class Corrected(Meant):
        """A score as people write it, and why."""

        lane: str
        score: str
        reason: str

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored
        self.lane = ""
        self.about = ""
        self.score: str | None = None
        """Once it is given the reason is asked for."""
        self.refused = ""

    def ask(self, lane: str, name: str, score: str) -> None:
        """Ask for this lane's right score; `score` is what stands there now."""
        self.lane, self.about = lane, f"{name}, now {score}"
        self.text, self.score, self.refused = "", None, ""
        self.display = True
        self.focus()
        self.repaint()

    def refuse(self, why: str) -> None:
        """The score couldn't be taken: say why, and ask again."""
        self.text, self.score, self.refused = self.score or "", None, why
        self.repaint()

    def close(self) -> None:
        self.display = False

    def entered(self) -> None:
        text = self.text.strip()
        if not text:
            self.refused = "say why: a correction keeps its reason" if self.score else ""
        elif self.score is None:
            self.score, self.text, self.refused = text, "", ""
        else:
            self.post_message(self.Corrected(self.lane, self.score, text))

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.score is None:
            question = f"{self.about}: the right score, as in 7+12, 8:31, 112 or 85 kg"
            typed = self.text
        else:
            question = f"{self.about}, to be {self.score}: why?"
            typed = unread_by_the_room(self.text, mirrored=self.mirrored)
        foot = self.refused or "enter goes on, escape leaves it as it is"
        return draw_asked(BoxQuestion(question, typed, foot), columns, rows, self.look)
