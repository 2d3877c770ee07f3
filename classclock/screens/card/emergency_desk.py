"""The coach's keys while the lines of the emergency card are asked, one after the other."""

from typing import Literal

from msgspec import Struct, field

from classclock.plan.settings.club import Emergency
from classclock.screens.controls.asked import Asked
from classclock.screens.controls.typed_line import TypedLine
from classclock.wall.emergency_words import CARD_LINES, LONGEST

Left = Literal["", "before", "after"]
"""Whether a key left the lines: back before the first of them, or on after the last."""


class CardDesk(Struct):
    lines: dict[str, TypedLine] = field(default_factory=lambda: _typed(Emergency()))
    """By the card's fields."""
    at: int = 0
    """Which line is typed."""
    notice: str = ""

    @classmethod
    def of(cls, card: Emergency) -> "CardDesk":
        """With what the card says already."""
        return cls(_typed(card))

    @property
    def card(self) -> Emergency:
        """What is typed so far, as a card."""
        return Emergency(**{name: line.text.strip() for name, line in self.lines.items()})

    @property
    def name(self) -> str:
        """The field that is typed."""
        return tuple(self.lines)[self.at]

    def sign(self, sign: str) -> Left:
        """One key. Enter goes on, also from an empty line; up and escape go back."""
        self.notice = ""
        line = self.lines[self.name]
        if sign in ("<up>", "<escape>") or (sign == "<backspace>" and not line.text):
            if not self.at:
                return "before"
            self.at -= 1
        elif sign == "<enter>":
            if self.at == len(self.lines) - 1:
                return "after"
            self.at += 1
        elif sign == "<down>":
            self.at = min(self.at + 1, len(self.lines) - 1)
        elif (len(sign) == 1 or sign == "<space>") and len(line.text) >= LONGEST:
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

    def asked(self, *, last: str) -> Asked:
        """The open question; `last` is what enter does on the last line."""
        words = CARD_LINES[self.name]
        on = last if self.at == len(self.lines) - 1 else "goes on, on an empty line too"
        return Asked(words.question, words.why, f"enter: {on}; up or escape: back")


def _typed(card: Emergency) -> dict[str, TypedLine]:
    said = {name: getattr(card, name) for name in CARD_LINES}
    return {name: TypedLine(text, len(text)) for name, text in said.items()}
