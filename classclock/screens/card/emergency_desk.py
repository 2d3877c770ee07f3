"""The coach's keys while the lines of the emergency card are asked, one after the other."""

from typing import Literal

from classclock.plan.settings.club import Emergency
from classclock.screens.controls.cursor import Cursor
from classclock.screens.controls.page_question import PageQuestion
from classclock.screens.controls.typed_line import TypedLine
from classclock.wall.emergency_words import CARD_LINES, LONGEST

Left = Literal["", "before", "after"]
"""Whether a key left the lines: back before the first of them, or on after the last."""


class CardDesk:
    def __init__(self, card: Emergency) -> None:
        """With what the card says already."""
        self.lines = {
            name: TypedLine.of(getattr(card, name), longest=LONGEST) for name in CARD_LINES
        }
        """By the card's fields."""
        self.notice = ""
        self._cursor = Cursor()

    @property
    def card(self) -> Emergency:
        """What is typed so far, as a card."""
        return Emergency(**{name: line.text.strip() for name, line in self.lines.items()})

    @property
    def name(self) -> str:
        """The field that is typed."""
        return tuple(self.lines)[self._cursor.at]

    @property
    def on_last(self) -> bool:
        return self._cursor.at == len(self.lines) - 1

    def sign(self, sign: str) -> Left:
        """One key. Enter goes on, also from an empty line; up and escape go back."""
        self.notice = ""
        line = self.lines[self.name]
        if sign in ("<up>", "<escape>") or (sign == "<backspace>" and not line.text):
            if not self._cursor.at:
                return "before"
            self._cursor.step(-1, len(self.lines))
        elif sign in ("<enter>", "<down>"):
            if sign == "<enter>" and self.on_last:
                return "after"
            self._cursor.step(1, len(self.lines))
        elif (len(sign) == 1 or sign == "<space>") and line.full:
            self.notice = f"a line of the card holds {LONGEST} signs"
        elif not line.sign(sign) and len(sign) == 1:
            self.notice = "that sign can't be shown: leave it out"
        return ""

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere, as one line."""
        refused = ""
        for sign in " ".join(text.split()):
            self.sign(sign)
            refused = self.notice or refused
        self.notice = refused

    def asked(self, *, last: str) -> PageQuestion:
        """The open question; `last` is what enter does on the last line."""
        words = CARD_LINES[self.name]
        on = last if self.on_last else "goes on, on an empty line too"
        return PageQuestion(words.question, words.why, f"enter: {on}; up or escape: back")
