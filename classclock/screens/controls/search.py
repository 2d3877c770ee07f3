"""A list in which a thing is found by typing: what is typed, and which line is lit."""

from classclock.screens.controls.cursor import Cursor
from classclock.screens.controls.typed_line import TypedLine

_LONGEST = 60
"""Signs: longer than what anybody is called."""


class Search:
    """Whatever is typed, the first that it finds is lit."""

    def __init__(self) -> None:
        self.line = TypedLine(longest=_LONGEST)
        self.cursor = Cursor()

    @property
    def text(self) -> str:
        return self.line.text

    def sign(self, sign: str, count: int) -> bool:
        """One key, in a list of so many; whether it means anything here.

        Escape drops what is typed, and means nothing where nothing is.
        """
        if self.cursor.sign(sign, count):
            return True
        if sign == "<escape>":
            if not self.text:
                return False
            self.drop()
            return True
        if self.line.sign_at_end(sign):
            self.cursor.at = 0
            return True
        return False

    def paste(self, text: str) -> None:
        """Type what was copied elsewhere."""
        if self.line.paste(text):
            self.cursor.at = 0

    def drop(self) -> None:
        """Nothing is typed any more."""
        self.line = TypedLine(longest=_LONGEST)
        self.cursor.at = 0
