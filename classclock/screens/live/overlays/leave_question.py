"""Whether to leave a class that isn't over, or not on disk. No letter or ctrl key answers it."""

from dataclasses import dataclass
from textwrap import wrap

from textual.geometry import Size
from textual.message import Message

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.overlays.asked_box import AtTheFoot, BoxQuestion, draw_asked
from classclock.wall.on_disk_words import LeaveWords

_FREE = 6
"""Rows of the class that are always seen."""


class LeaveQuestion(Painted, AtTheFoot):
    @dataclass
    class Leave(Message):
        """To be left, with all that was named as lost."""

        words: LeaveWords

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.words = LeaveWords("", (), "", "")

    def ask(self, words: LeaveWords) -> None:
        self.words = words
        self.display = True
        self.refresh(layout=True)
        self.repaint()

    def say(self, words: LeaveWords) -> None:
        """It is open, and things stand so now."""
        if words != self.words:
            self.ask(words)

    def offer(self, sign: str) -> bool:
        """Whether this sign answered it: enter leaves, escape stays. Taps go through."""
        if not self.display or sign not in ("<enter>", "<escape>"):
            return False
        self.display = False
        if sign == "<enter>":
            self.post_message(self.Leave(self.words))
        return True

    def get_content_height(self, container: Size, viewport: Size, width: int) -> int:
        base = super().get_content_height(container, viewport, width)
        most = max(1, viewport.height - base - _FREE)
        return base + len(_lost_rows(self.words.lost, width - 4, most))

    def paint(self, columns: int, rows: int) -> Drawing:
        words = self.words
        lost = _lost_rows(words.lost, columns - 4, rows - 3)
        asked = BoxQuestion(words.says, words.asks, words.keys, more=lost, caret=False)
        return draw_asked(asked, columns, rows, self.look)


def _lost_rows(lost: tuple[str, ...], columns: int, most: int) -> tuple[str, ...]:
    """As many of them as fit into so many rows, and how many more there are."""
    for shown in range(len(lost), 0, -1):
        more = f" and {len(lost) - shown} more" if shown < len(lost) else ""
        rows = wrap(f"{', '.join(lost[:shown])}{more}", columns)
        if len(rows) <= most:
            return tuple(rows)
    return ()
