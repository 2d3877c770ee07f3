"""The coach's keys at the first run: the unit, the keyboard without shift, the emergency card."""

from typing import Literal

from msgspec import Struct

from classclock.screens.card.emergency_desk import CardDesk
from classclock.tally.keys.keyboard_row import DIGIT_KEYS, can_be_mapped, keyboard_map
from classclock.units.loads import Unit

FirstRunQuestion = Literal["unit", "six", "offer", "row", "point", "minus", "card", "done"]


class FirstRunDesk(Struct):
    """Which question is open, and what was answered. Backspace goes back to the one before."""

    card: CardDesk
    unit: Unit = "kg"
    question: FirstRunQuestion = "unit"
    row: str = ""
    """What the digit keys type, as far as they have been struck."""
    point: str = "."
    minus: str = "-"
    notice: str = ""

    @property
    def keyboard(self) -> dict[str, str]:
        return keyboard_map(self.row, self.point, self.minus)

    def sign(self, sign: str) -> bool:
        """One key; whether all is answered and wanted so."""
        self.notice = ""
        if sign == "<backspace>" and self.question != "card":
            self._back()
            return False
        match self.question:
            case "unit":
                self._unit(sign)
            case "six":
                self._six(sign)
            case "offer":
                self._offer(sign)
            case "row":
                self._row(sign)
            case "point" | "minus":
                self._mark(sign)
            case "card":
                self._card(sign)
            case "done":
                return sign == "<enter>"
        return False

    def _back(self) -> None:
        if self.question == "row" and self.row:
            self.row = self.row[:-1]
            return
        before: dict[FirstRunQuestion, FirstRunQuestion] = {
            "unit": "unit",
            "six": "unit",
            "offer": "six",
            "row": "offer",
            "point": "six",
            "minus": "point",
            "card": "minus",
            "done": "card",
        }
        self.question = before[self.question]
        if self.question == "six":
            self.row = ""

    def _unit(self, sign: str) -> None:
        units: dict[str, Unit] = {"k": "kg", "l": "lb"}
        if sign.lower() in units:
            self.unit = units[sign.lower()]
            self.question = "six"
        elif sign == "<enter>":
            self.question = "six"
        else:
            self.notice = "k for kilograms, l for pounds"

    def _six(self, sign: str) -> None:
        if sign == "6":
            self.question = "point"
        elif sign.isdecimal():
            self.notice = f"that was {sign}: press 6"
        elif can_be_mapped(sign):
            self.question = "offer"
        else:
            self.notice = "press the key with 6 on it"

    def _offer(self, sign: str) -> None:
        if sign == "<enter>":
            self.question, self.row = "row", ""
        elif sign == "<space>":
            self.question = "point"
        else:
            self.notice = "enter or space"

    def _row(self, sign: str) -> None:
        if not can_be_mapped(sign):
            self.notice = f"press the key with {DIGIT_KEYS[len(self.row)]} on it, without shift"
        elif sign in self.row:
            digit = DIGIT_KEYS[self.row.index(sign)]
            self.notice = f"{sign} is {digit} already: press the next key"
        else:
            self.row += sign
            if len(self.row) == len(DIGIT_KEYS):
                self.question = "point"

    def _mark(self, sign: str) -> None:
        if not can_be_mapped(sign):
            self.notice = "press a key that types a sign, without shift"
        elif sign.isdecimal() or sign in self.row:
            digit = sign if sign.isdecimal() else DIGIT_KEYS[self.row.index(sign)]
            self.notice = f"that key is {digit}: press another one, for instance one beside it"
        elif self.question == "point":
            self.point, self.question = sign, "minus"
        elif sign == self.point:
            self.notice = "that key is . already: press another one"
        else:
            self.minus, self.question = sign, "card"

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere into the open line of the card."""
        self.card.paste(text)
        self.notice = self.card.notice

    def _card(self, sign: str) -> None:
        left = self.card.sign(sign)
        self.notice = self.card.notice
        if left:
            self.question = "minus" if left == "before" else "done"
