"""What there is to choose in a plan: options and loads, piece by piece."""

from collections.abc import Iterator
from itertools import chain

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.value_types import LoadChoice
from classclock.tally.lanes import Choice
from classclock.tally.piece import Piece
from classclock.units.loads import Load, Unit


class Modifiable(Struct, frozen=True):
    """A piece of the plan in which there is something to choose."""

    index: int
    segment: Segment
    menu: tuple[tuple[int, int], ...]
    """Station and option of each number, from 1."""
    loads: tuple[str, ...]
    """The names of the loads that the plan offers."""

    def option_name(self, number: int) -> str:
        station, option = self.menu[number - 1]
        return self.segment.station[station].options[option - 1].name

    def load_name(self, name: str) -> str:
        """`heavier 22.5 kg`: the name with its loads."""
        loads = dict.fromkeys(str(offer[name]) for offer in _offers(self.segment) if name in offer)
        return " ".join([name, *loads])

    def option_names(self, choice: Choice) -> list[str]:
        """The options that somebody uses, station by station."""
        return [
            self.segment.station[station].options[option - 1].name
            for station, option in enumerate(choice.options)
            if option
        ]

    def toggled(self, choice: Choice, number: int) -> Choice:
        """With the option of this number, or no longer; 0 is as written throughout."""
        options = [0] * len(self.segment.station)
        if number:
            for station, option in enumerate(choice.options[: len(options)]):
                options[station] = option
            place, option = self.menu[number - 1]
            options[place] = 0 if options[place] == option else option
        return replace(choice, options=tuple(options))

    def with_next_load(self, choice: Choice) -> Choice:
        """With the next of the loads that the plan offers, then none."""
        offers = (None, *self.loads)
        at = offers.index(choice.load) if choice.load in offers else 0
        return replace(choice, load=offers[(at + 1) % len(offers)])


def modifiable(plan: Plan, unit: Unit) -> tuple[Modifiable, ...]:
    """The pieces in which there are options or loads to choose."""
    pieces = (
        Modifiable(
            index,
            segment,
            Piece.of(segment, unit).option_menu,
            tuple(dict.fromkeys(chain.from_iterable(_offers(segment)))),
        )
        for index, segment in enumerate(plan.segment)
        if is_piece(segment)
    )
    return tuple(piece for piece in pieces if piece.menu or piece.loads)


def _offers(segment: Segment) -> Iterator[dict[str, Load]]:
    """Every place where the plan offers several loads by name."""
    choices: list[LoadChoice | None] = [segment.load]
    choices += [station.load for station in segment.station]
    choices += [one.load for one in segment.sets]
    return (choice for choice in choices if isinstance(choice, dict))
