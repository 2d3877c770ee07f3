"""Who of those who are here may try the next option."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from classclock.plan.station import Station
from classclock.planning.next_steps import NextStep, next_step
from classclock.screens.people.people_here import PeopleHere
from classclock.tally.piece import Piece

if TYPE_CHECKING:
    from classclock.book.asking.step_reading import Uses  # loads sqlalchemy


class StepsHere:
    """For the coach's eyes alone; who asks sees to it that no room reads along."""

    def __init__(self, here: PeopleHere, enough: int) -> None:
        """`enough` is the club's number of scores like the others'; 0 names nobody."""
        self._here, self._enough = here, enough
        self._uses: dict[str, Uses] = {}

    def learn(self, read: "Uses") -> None:
        """Take up what was read."""
        self._uses |= dict.fromkeys(read.own, read)

    def of(self, ident: str, *, up: bool = True) -> tuple[tuple[Station, NextStep], ...]:
        """What may be offered to somebody for what they do in this plan, station by station.

        Without `up` nothing that is nearer to as written.
        """
        return tuple(self._found(ident, up=up)) if self._enough else ()

    def _found(self, ident: str, *, up: bool) -> Iterator[tuple[Station, NextStep]]:
        uses, here = self._uses.get(ident), self._here
        if uses is None:
            return
        for index in here.to_choose():
            segment = here.plan.segment[index]
            if segment.teams is not None or Piece.of(segment, here.unit).counts_by == "load":
                continue
            options = here.choice(ident, index).options
            for place, station in enumerate(segment.station):
                option = options[place] if place < len(options) else 0
                used = uses.of(ident, segment, place, option)
                step = next_step(station, option, used, self._enough)
                if step is not None and (up or not step.up):
                    yield station, step
