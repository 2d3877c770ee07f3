"""The first run's questions: the unit, the keyboard without shift, the emergency card."""

from typing import Literal

from msgspec import Struct, field

from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.controls.asked import Asked
from classclock.tally.keys.keyboard_row import DIGIT_KEYS, can_be_mapped, keyboard_map
from classclock.units.loads import Unit
from classclock.wall.emergency_words import lacks

Question = Literal["unit", "six", "offer", "row", "point", "minus", "card", "done"]


class FirstRunDesk(Struct):
    """Which question is open, and what was answered. Backspace goes back to the one before."""

    unit: Unit = "kg"
    question: Question = "unit"
    row: str = ""
    """What the digit keys type, as far as they have been struck."""
    point: str = "."
    minus: str = "-"
    card: CardDesk = field(default_factory=CardDesk)
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
        before: dict[Question, Question] = {
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

    def asked(self) -> Asked:
        """The open question, in words."""
        match self.question:
            case "unit":
                return Asked(
                    "Kilograms or pounds?",
                    "Loads written without a unit are in it, and so are the bars and plates.",
                    "k: kilograms, l: pounds",
                )
            case "six":
                return Asked(
                    "Press 6, without shift.",
                    "Numbers are typed fast in a class. On some keyboards they need shift.",
                    "backspace: back",
                )
            case "offer":
                return Asked(
                    "Digits need shift here.",
                    "classclock can take the row for digits without it.",
                    "enter: yes, map the row, space: no, backspace: back",
                )
            case "row":
                return Asked(
                    f"Press {DIGIT_KEYS[len(self.row)]}, without shift.",
                    f"The keys of the digit row, one after the other. So far: {self.row}",
                    "backspace: the last one again",
                )
            case "point":
                return Asked(
                    "Press . without shift.",
                    "For a decimal, and for somebody who stops.",
                    "a key that means it from now on, backspace: back",
                )
            case "minus":
                return Asked(
                    "Press - without shift.",
                    "It takes back what was counted.",
                    "a key that means it from now on, backspace: back",
                )
            case "card":
                return self.card.asked(last="goes on, on an empty line too")
            case "done":
                return Asked("Write club.toml?", self._summary(), "enter: write, backspace: back")

    def _summary(self) -> str:
        unit = {"kg": "kilograms", "lb": "pounds"}[self.unit]
        keys = ", ".join(f"{sign} means {meant}" for sign, meant in self.keyboard.items())
        said = f"Loads in {unit}; {keys or 'the keyboard as it is'}."
        short = lacks(self.card.card)
        return f"{said} {short.capitalize()}: F2 at home asks again." if short else said
