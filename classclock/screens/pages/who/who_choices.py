"""What each of those who are here modifies, piece by piece."""

from collections.abc import Iterator

from msgspec import UnsetType
from msgspec.structs import replace

from classclock.book.asking.known_people import KnownPerson, options_again
from classclock.plan.model import Plan
from classclock.planning.modifiable import Modifiable, modifiable
from classclock.tally.counting.portion_words import portion_in
from classclock.tally.lanes import Choice, Portion
from classclock.units.loads import Unit


class WhoChoices:
    def __init__(self, plan: Plan, unit: Unit) -> None:
        self._plan = plan
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

    def words(self, piece: Modifiable | None, ident: str) -> str:
        """What somebody modifies in a piece, and how much of any: empty is as written, no load."""
        return ", ".join([*(self._chosen(piece, ident) if piece else ()), *self._less(ident)])

    def _less(self, ident: str) -> Iterator[str]:
        for (index, one), choice in self.made.items():
            if one == ident:
                yield from portion_in(self._plan.segment[index], choice)

    def _chosen(self, piece: Modifiable, ident: str) -> list[str]:
        choice = self.of(piece, ident)
        names = piece.option_names(choice)
        again = ["as before"] if names and (piece.index, ident) in self._recalled else []
        return [*names, *([choice.load] if choice.load else []), *again]

    def recall(self, known: KnownPerson) -> None:
        """What they used last time in each piece, as far as the plan still offers it."""
        for piece in self.pieces:
            options = options_again(known, piece.segment)
            if any(options):
                self.made[piece.index, known.id] = Choice(options)
                self._recalled.add((piece.index, known.id))

    def hand_on(self, ident: str, to: str) -> None:
        """What was chosen for somebody is another's from now on."""
        for index, one in [key for key in self.made if key[1] == ident]:
            self._choose(to, index, self.made.pop((index, one)))

    def toggle(self, ident: str, piece: Modifiable, number: int) -> None:
        """Use the piece's option of this number, or no longer; 0 is as written throughout."""
        self._choose(ident, piece.index, piece.toggled(self.of(piece, ident), number))

    def next_load(self, ident: str, piece: Modifiable) -> None:
        """The next of the loads that the plan offers, then none."""
        self._choose(ident, piece.index, piece.with_next_load(self.of(piece, ident)))

    def agree(self, ident: str, index: int, portion: Portion | UnsetType) -> None:
        """Let somebody do so much of a segment, or all of it again; options stay as they are."""
        choice = self.made.get((index, ident), Choice())
        self.made[index, ident] = replace(choice, portion=portion)

    def _choose(self, ident: str, index: int, choice: Choice) -> None:
        self.made[index, ident] = choice
        self._recalled.discard((index, ident))
