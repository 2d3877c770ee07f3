"""The coach's keys where the terminal isn't known: which letters come out whole."""

from collections.abc import Mapping

from msgspec import Struct

from classclock.screens.controls.page_question import PageQuestion
from classclock.units.cell_dots import CellDots

WAYS: Mapping[str, CellDots] = {"a": "sextants", "b": "quadrants", "c": "halves"}
"""By the key that says so, the finest first."""
QUESTION = PageQuestion(
    "Which name is whole?",
    "They are the same name. Large letters are made of signs that not every font has: where one is "
    "missing there is a box, a question mark or a gap.",
    "a, b or c: the first one that is whole, escape: not now",
)


class LettersDesk(Struct):
    """What was answered, once it was, for a kind of terminal."""

    kind: str
    dots: CellDots | None = None
    notice: str = ""

    def sign(self, sign: str) -> bool:
        """One key; whether it answers the question."""
        self.dots = WAYS.get(sign.lower())
        self.notice = "" if self.dots else "a, b or c; c if you can't tell"
        return self.dots is not None
