"""What the digits mean in a list of people: the options of one piece, nine at a time."""

from classclock.planning.modifiable import Modifiable
from classclock.screens.controls.cursor import Cursor

MOST_DIGITS = 9
"""Options that digits can mean at a time; 0 is as written."""


class OptionDigits:
    def __init__(self) -> None:
        self._page = Cursor()

    def shown(self, piece: Modifiable) -> range:
        """The numbers of the options that the digits mean."""
        first = self._page.within(_pages(piece)) * MOST_DIGITS + 1
        return range(first, min(first + MOST_DIGITS, len(piece.menu) + 1))

    def more(self, piece: Modifiable) -> None:
        """The next nine; after the last the first ones."""
        self._page.round(1, _pages(piece))

    def first(self) -> None:
        """The first nine again."""
        self._page.at = 0

    def number(self, piece: Modifiable, digit: int) -> int | str:
        """The number of the option that this digit means; in words where it means none."""
        shown = self.shown(piece)
        if digit > len(shown):
            return f"there are {len(shown)} options here"
        return shown[digit - 1] if digit else 0


def _pages(piece: Modifiable) -> int:
    return -(-len(piece.menu) // MOST_DIGITS)
