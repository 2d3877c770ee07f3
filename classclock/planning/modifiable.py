"""What there is to choose in a plan: options and loads, piece by piece."""

from collections.abc import Iterator
from itertools import chain

from msgspec import UNSET, Struct
from msgspec.structs import replace

from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.value_types import LoadChoice
from classclock.tally.lanes import Choice
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.units.loads import Load, Unit


class Modifiable(Struct, frozen=True):
    """A piece of the plan in which there is something to choose."""

    index: int
    segment: Segment
    menu: tuple[tuple[int, int], ...]
    """Station and option of each number, from 1."""
    loads: tuple[str, ...]
    """The names of the loads that the plan offers."""
    by_load: bool = False
    """Whether it is scored by load: then each lifts what was talked over."""

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
        portion = choice.portion if number else UNSET
        return replace(choice, options=tuple(options), portion=portion)

    def with_next_load(self, choice: Choice) -> Choice:
        """With the next of the loads that the plan offers, then none."""
        offers = (None, *self.loads)
        at = offers.index(choice.load) if choice.load in offers else 0
        return replace(choice, load=offers[(at + 1) % len(offers)])


def modifiable(plan: Plan, unit: Unit) -> tuple[Modifiable, ...]:
    """The pieces in which there are options or loads to choose."""
    every = (_modifiable(index, segment, unit) for index, segment in enumerate(plan.segment))
    return tuple(one for one in every if is_piece(one.segment) and (one.menu or one.loads))


def not_begun(record: ClassRecord) -> tuple[int, ...]:
    """The segments to come, the one on the board among them until it is started."""
    if record.closed:
        return ()
    return record.to_come if record.sheet is None else record.to_come[1:]


def piece_to_come(record: ClassRecord) -> Modifiable | None:
    """The next piece that hasn't begun and has something to choose; None where no such is left."""
    segments = ((index, record.plan.segment[index]) for index in not_begun(record))
    every = (_modifiable(index, segment, record.unit) for index, segment in segments)
    pieces = (one for one in every if is_piece(one.segment))
    return next((one for one in pieces if one.menu or one.loads or one.by_load), None)


def _modifiable(index: int, segment: Segment, unit: Unit) -> Modifiable:
    piece = Piece.of(segment, unit)
    loads = tuple(dict.fromkeys(chain.from_iterable(_offers(segment))))
    return Modifiable(index, segment, piece.option_menu, loads, piece.counts_by == "load")


def _offers(segment: Segment) -> Iterator[dict[str, Load]]:
    """Every place where the plan offers several loads by name."""
    choices: list[LoadChoice | None] = [segment.load]
    choices += [station.load for station in segment.station]
    choices += [one.load for one in segment.sets]
    return (choice for choice in choices if isinstance(choice, dict))
