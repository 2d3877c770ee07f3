"""Correcting a score, with its reason: two lines, one after the other."""

from dataclasses import dataclass

from textual.message import Message

from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.entry import Entry
from classclock.screens.look import Look


class CorrectEntry(Entry):
    """Has the focus while it is open. The screen answers `Corrected` with `refuse` or `close`."""

    @dataclass
    class Corrected(Message):
        """A score as people write it, and why."""

        lane: str
        score: str
        reason: str

    class Closed(Message):
        pass

    def __init__(self, look: Look, *, mirrored: bool = True, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.mirrored = mirrored

    def ask(self, lane: str, name: str, score: str) -> None:
        """Ask for this lane's right score; `score` is what stands there now."""
        self.display = True
        self.focus()
        self.repaint()

    def refuse(self, why: str) -> None:
        """The score couldn't be taken: say why, and ask again."""
        self.repaint()

    def close(self) -> None:
        self.display = False
        self.post_message(self.Closed())

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
