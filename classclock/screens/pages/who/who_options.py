"""What the digits mean before a class: the options of one piece, nine at a time."""

from classclock.screens.controls.cursor import Cursor
from classclock.screens.pages.who.modifiable import Modifiable
from classclock.screens.pages.who.who_choices import WhoChoices

MOST_DIGITS = 9
"""Options that digits can mean at a time; 0 is as written."""


class WhoOptions:
    def __init__(self, choices: WhoChoices) -> None:
        self._choices = choices
        self._at = Cursor()
        self._page = Cursor()

    @property
    def piece(self) -> Modifiable | None:
        """The piece whose options the digits mean."""
        return self._at.lit(self._choices.pieces)

    def next_piece(self) -> None:
        self._at.round(1, len(self._choices.pieces))
        self._page.at = 0

    def shown(self, piece: Modifiable) -> range:
        """The numbers of the options that the digits mean."""
        first = self._page.at * MOST_DIGITS + 1
        return range(first, min(first + MOST_DIGITS, len(piece.menu) + 1))

    def more(self) -> None:
        """The next nine; after the last the first ones."""
        if self.piece is not None:
            self._page.round(1, -(-len(self.piece.menu) // MOST_DIGITS))

    def digit(self, ident: str, digit: int) -> str:
        """Let somebody use this option, or no longer; what to say where there is none."""
        piece = self.piece
        if piece is None or not piece.menu:
            return "this plan has no options"
        shown = self.shown(piece)
        if digit > len(shown):
            return f"there are {len(shown)} options here"
        self._choices.toggle(ident, piece, shown[digit - 1] if digit else 0)
        return ""

    def next_load(self, ident: str) -> str:
        """Let somebody have the next load on offer; what to say where there is no choice."""
        piece = self.piece
        if piece is None or not piece.loads:
            return "the plan offers one load here, or none"
        self._choices.next_load(ident, piece)
        return ""
