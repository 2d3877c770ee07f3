"""What there is to choose in a plan before the class: options and loads, piece by piece."""

from collections.abc import Iterator
from itertools import chain

from msgspec import Struct

from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.value_types import LoadChoice
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
