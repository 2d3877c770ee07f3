"""A line of text that is being typed, with a caret in it."""

from msgspec import Struct

from classclock.units.printable import can_be_shown

_LONGEST = 2000


class TypedLine(Struct):
    text: str = ""
    caret: int = 0
    fresh: bool = False
    """Whether the text was there before: the first sign typed takes its place."""

    def sign(self, sign: str) -> bool:
        """One key; whether it means anything to a line of text."""
        typed = " " if sign == "<space>" else sign
        if len(typed) == 1 and can_be_shown(typed):
            self._insert(typed)
        elif sign == "<backspace>":
            self._cut(self.caret - 1)
        elif sign == "<delete>":
            self._cut(self.caret)
        elif sign in ("<left>", "<right>", "<home>", "<end>"):
            moved = {"<left>": self.caret - 1, "<right>": self.caret + 1, "<home>": 0}
            self.caret = max(0, min(moved.get(sign, len(self.text)), len(self.text)))
        else:
            return False
        self.fresh = False
        return True

    def _insert(self, typed: str) -> None:
        if self.fresh:
            self.text, self.caret = "", 0
        if len(self.text) < _LONGEST:
            self.text = self.text[: self.caret] + typed + self.text[self.caret :]
            self.caret += 1

    def _cut(self, at: int) -> None:
        if 0 <= at < len(self.text):
            self.text = self.text[:at] + self.text[at + 1 :]
            self.caret = at
