"""A goal that is being typed on an athlete's page: `14`, `7+12 with step-up by 2027-03-01`."""

from typing import Literal

from msgspec import Struct

from classclock.screens.controls.typed_line import TypedLine

_LONGEST = 120
_ASKED = (
    "as in 14, or 7+12 with step-up by 2027-03-01   enter: set it   ctrl+u, enter: none there   "
    "escape: leave it"
)
_SURE = "y: set it all the same   escape: leave it"


class GoalTyped(Struct, frozen=True):
    """What enter took: it is set, or with no text ended."""

    benchmark: str
    text: str
    anyway: bool = False
    """Though it is no better than their best."""


class GoalEntry:
    """Open until `done`. A goal that is no better than the best is asked about once more."""

    def __init__(self, benchmark: str, before: str) -> None:
        """`before` is the goal that they have there, as it is typed."""
        self._benchmark, self._before = benchmark, before
        self._line = TypedLine.of(before, fresh=True, longest=_LONGEST)
        self._question = ""

    def words(self, refused: str) -> str:
        """What is typed, behind what it is for or why it was refused; or what is asked."""
        if self._question:
            return f"{self._question}. All the same?"
        return f"{refused or f'goal on {self._benchmark}'}: {self._line.text}_"

    @property
    def keys(self) -> str:
        return _SURE if self._question else _ASKED

    def ask(self, question: str) -> None:
        """Ask before it is set; `question` says why."""
        self._question = question

    def sign(self, sign: str) -> GoalTyped | Literal["left"] | None:
        """One key: what is to be done, that it was left, or nothing yet."""
        if sign == "<escape>":
            return "left"
        if self._question:
            return GoalTyped(self._benchmark, self._line.text, anyway=True) if sign == "y" else None
        if sign != "<enter>":
            self._line.sign_at_end(sign)
            return None
        text = self._line.text.strip()
        return "left" if text == self._before else GoalTyped(self._benchmark, text)
