"""The coach's keys at the last weeks: which of what is said under the bars is in view."""

from msgspec import Struct

from classclock.planning.weeks import Weeks
from classclock.screens.controls.cursor import Cursor


class WeeksBook(Struct, frozen=True):
    """What the club's files say, for these weeks."""

    weeks: Weeks
    without_plan: int = 0
    """Classes that count by their results alone."""


class WeeksDesk:
    def __init__(self) -> None:
        self.book: WeeksBook | None = None
        """None until the files are read."""
        self.first = Cursor()
        """The first line in view of what is said under the bars."""
        self.lines = 0
        """How many lines that is, in the window as it is."""
        self.notice = "the last weeks are being read"

    def know(self, book: WeeksBook) -> None:
        self.book, self.notice = book, ""

    def sign(self, sign: str) -> bool:
        """One key; whether it leaves."""
        self.first.sign(sign, self.lines)
        return sign in ("<escape>", "<f7>")
