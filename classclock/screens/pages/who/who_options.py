"""What the digits mean before a class: the options of one piece after the other."""

from classclock.planning.modifiable import Modifiable
from classclock.screens.controls.cursor import Cursor
from classclock.screens.pages.who.who_choices import WhoChoices
from classclock.screens.people.option_digits import OptionDigits


class WhoOptions:
    def __init__(self, choices: WhoChoices) -> None:
        self._choices = choices
        self._at = Cursor()
        self._digits = OptionDigits()

    @property
    def piece(self) -> Modifiable | None:
        """The piece whose options the digits mean."""
        return self._at.lit(self._choices.pieces)

    def next_piece(self) -> None:
        self._at.round(1, len(self._choices.pieces))
        self._digits.first()

    def shown(self, piece: Modifiable) -> range:
        """The numbers of the options that the digits mean."""
        return self._digits.shown(piece)

    def more(self) -> None:
        """The next nine; after the last the first ones."""
        if self.piece is not None:
            self._digits.more(self.piece)

    def digit(self, ident: str, digit: int) -> str:
        """Let somebody use this option, or no longer; what to say where there is none."""
        piece = self.piece
        if piece is None or not piece.menu:
            return "this plan has no options"
        number = self._digits.number(piece, digit)
        if isinstance(number, str):
            return number
        self._choices.toggle(ident, piece, number)
        return ""

    def next_load(self, ident: str) -> str:
        """Let somebody have the next load on offer; what to say where there is no choice."""
        piece = self.piece
        if piece is None or not piece.loads:
            return "the plan offers one load here, or none"
        self._choices.next_load(ident, piece)
        return ""
