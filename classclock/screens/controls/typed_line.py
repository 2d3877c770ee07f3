"""A line of text that is being typed, with a caret in it."""

from msgspec import Struct

from classclock.units.printable import can_be_shown


class TypedLine(Struct):
    text: str = ""
    caret: int = 0
    """How many signs stand before it."""
    fresh: bool = False
    """Whether the text was there before: the first sign typed takes its place."""
    longest: int = 2000
    """Signs; a text that is longer already stays as it is."""

    @classmethod
    def of(cls, text: str, *, fresh: bool = False, longest: int = 2000) -> "TypedLine":
        """With the caret at its end."""
        return cls(text, len(text), fresh, longest)

    @property
    def full(self) -> bool:
        return len(self.text) >= self.longest

    def sign(self, sign: str) -> bool:
        """One key; whether it means anything to a line of text."""
        match sign:
            case "<delete>":
                self._cut(self.caret)
            case "<left>":
                self.caret = max(0, self.caret - 1)
            case "<right>":
                self.caret = min(self.caret + 1, len(self.text))
            case "<home>":
                self.caret = 0
            case "<end>":
                self.caret = len(self.text)
            case _:
                return self.sign_at_end(sign)
        self.fresh = False
        return True

    def sign_at_end(self, sign: str) -> bool:
        """The same where the caret stays at the end: what would move it means something else."""
        match sign:
            case "<backspace>":
                self._cut(self.caret - 1)
            case "<ctrl+u>":
                self.text, self.caret = "", 0
            case "<ctrl+w>":
                self._cut_word()
            case "<space>":
                return self.type(" ")
            case _:
                return len(sign) == 1 and self.type(sign)
        self.fresh = False
        return True

    def type(self, signs: str) -> bool:
        """Put these in at the caret, as many as there is room for.

        False where there is none, or where one of them can't be shown: then nothing is.
        """
        text, caret = ("", 0) if self.fresh else (self.text, self.caret)
        fitting = signs[: max(0, self.longest - len(text))]
        if not fitting or not can_be_shown(signs):
            return False
        self.text = text[:caret] + fitting + text[caret:]
        self.caret = caret + len(fitting)
        self.fresh = False
        return True

    def paste(self, text: str) -> bool:
        """Type what was copied elsewhere, as one line without what can't be shown; whether any."""
        before = self.text
        for sign in " ".join(text.split()):
            self.type(sign)
        return self.text != before

    def _cut_word(self) -> None:
        """Take out the word before the caret, with the spaces behind it, as a shell does."""
        before = self.text[: self.caret].rstrip()
        kept = before[: before.rfind(" ") + 1]
        self.text, self.caret = kept + self.text[self.caret :], len(kept)

    def _cut(self, at: int) -> None:
        if 0 <= at < len(self.text):
            self.text = self.text[:at] + self.text[at + 1 :]
            self.caret = at
