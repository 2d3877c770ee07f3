"""What is asked about one person in a list: it has the keys until it is answered."""

from collections.abc import Callable
from typing import Protocol

from classclock.screens.controls.typed_line import TypedLine
from classclock.units.names import is_unnamed, tidy_name

_LONGEST = 60


class Question(Protocol):
    label: str
    """What stands before what is typed."""
    notice: str
    """What there is to say, of the question and then of its answer."""

    @property
    def text(self) -> str:
        """What is typed so far."""

    def sign(self, sign: str) -> bool:
        """One key; whether it was answered, or left."""

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere."""


class KeyQuestion:
    """Which letter taps for them."""

    label = "key"
    text = ""

    def __init__(self, name: str, give: Callable[[str], str]) -> None:
        """`give` lets them have a letter, and says what came of it."""
        self._give = give
        self.notice = f"{name}'s key: type a letter, escape leaves it"

    def sign(self, sign: str) -> bool:
        letter = sign.lower()
        if sign == "<escape>":
            self.notice = ""
        elif len(letter) == 1 and "a" <= letter <= "z":
            self.notice = self._give(letter)
        else:
            self.notice = "a key is a letter from a to z"
        return True

    def paste(self, text: str) -> None:
        """A key is struck, not pasted."""


class LineQuestion:
    """A line to type; enter keeps it, escape leaves it."""

    def __init__(
        self, label: str, line: TypedLine, keep: Callable[[str], str], notice: str = ""
    ) -> None:
        """`keep` takes what was typed, without spaces round it, and says what came of it."""
        self.label, self.notice = label, notice
        self._line, self._keep = line, keep

    @property
    def text(self) -> str:
        return self._line.text

    def sign(self, sign: str) -> bool:
        answered = sign in ("<enter>", "<escape>")
        if not answered:
            self._line.sign_at_end(sign)
            return False
        self.notice = self._keep(tidy_name(self.text)) if sign == "<enter>" else ""
        return True

    def paste(self, text: str) -> None:
        self._line.paste(text)


def name_question(name: str, keep: Callable[[str], str]) -> LineQuestion:
    """What they are called on the wall; with nothing typed they are called as before.

    The first letter typed takes the place of a visitor's number.
    """

    def kept(typed: str) -> str:
        return keep(typed) if typed else ""

    line = TypedLine.of(name, fresh=is_unnamed(name), longest=_LONGEST)
    notice = "the name as the wall shows it; enter keeps it"
    return LineQuestion("name on the wall", line, kept, notice)
