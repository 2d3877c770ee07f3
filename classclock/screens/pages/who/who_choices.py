"""What each of those who are here modifies, piece by piece."""

from classclock.book.asking.known_people import KnownPerson, options_again
from classclock.plan.model import Plan
from classclock.planning.modifiable import Modifiable, modifiable
from classclock.tally.lanes import Choice
from classclock.units.loads import Unit


class WhoChoices:
    def __init__(self, plan: Plan, unit: Unit) -> None:
        self.pieces = modifiable(plan, unit)
        """The pieces in which there are options or loads to choose."""
        self.made: dict[tuple[int, str], Choice] = {}
        """By segment and person's id."""
        self._recalled: set[tuple[int, str]] = set()
        """Those that are as last time, unchanged."""

    def of(self, piece: Modifiable, ident: str) -> Choice:
        return self.made.get((piece.index, ident), Choice())

    def in_segment(self, segment: int) -> dict[str, Choice]:
        """What everybody modifies in a segment, by their ids."""
        return {ident: one for (index, ident), one in self.made.items() if index == segment}

    def words(self, piece: Modifiable, ident: str) -> str:
        """What somebody modifies in a piece; empty is as written, no load chosen."""
        choice = self.of(piece, ident)
        names = piece.option_names(choice)
        again = ["as before"] if names and (piece.index, ident) in self._recalled else []
        return ", ".join([*names, *([choice.load] if choice.load else []), *again])

    def recall(self, known: KnownPerson) -> None:
        """What they used last time in each piece, as far as the plan still offers it."""
        for piece in self.pieces:
            options = options_again(known, piece.segment)
            if any(options):
                self.made[piece.index, known.id] = Choice(options)
                self._recalled.add((piece.index, known.id))

    def hand_on(self, ident: str, to: str) -> None:
        """What was chosen for somebody is another's from now on."""
        for piece in self.pieces:
            if (piece.index, ident) in self.made:
                self._choose(to, piece, self.made.pop((piece.index, ident)))

    def toggle(self, ident: str, piece: Modifiable, number: int) -> None:
        """Use the piece's option of this number, or no longer; 0 is as written throughout."""
        self._choose(ident, piece, piece.toggled(self.of(piece, ident), number))

    def next_load(self, ident: str, piece: Modifiable) -> None:
        """The next of the loads that the plan offers, then none."""
        self._choose(ident, piece, piece.with_next_load(self.of(piece, ident)))

    def _choose(self, ident: str, piece: Modifiable, choice: Choice) -> None:
        self.made[piece.index, ident] = choice
        self._recalled.discard((piece.index, ident))
