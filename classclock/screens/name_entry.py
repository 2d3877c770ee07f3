"""A line for the name of someone who came late."""

from dataclasses import dataclass

from textual.message import Message

from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.entry import Entry


class NameEntry(Entry):
    """Has the focus while it is open. During a running piece it says that taps are off."""

    @dataclass
    class Named(Message):
        name: str

    class Closed(Message):
        """Left without a name, or after it was given."""

    def ask(self, *, running: bool) -> None:
        self.text = ""
        self.display = True
        self.focus()
        self.repaint()

    def close(self) -> None:
        self.display = False
        self.post_message(self.Closed())

    def entered(self) -> None:
        if name := self.text.strip():
            self.post_message(self.Named(name))
            self.close()

    def left(self) -> None:
        self.close()

    def paint(self, columns: int, rows: int) -> Drawing:
        return blank(columns, rows, self.look.theme.ground)
