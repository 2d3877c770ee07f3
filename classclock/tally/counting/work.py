"""Rounds and reps: what the work of one lane is worth under its options."""

from itertools import accumulate

from msgspec import Struct

from classclock.plan.amounts import worth
from classclock.tally.counting.portion_words import share_of
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece


class Work(Struct, frozen=True):
    """The rounds of one lane. Rounds are indexed from 0; all amounts are reps."""

    piece: Piece
    lane: Lane

    def plan_station(self, position: int) -> int:
        """Which of the plan's stations is the `position`th of this lane's round, from 0."""
        return (self.lane.start_station + position) % len(self.piece.stations)

    def station_worths(self, index: int) -> tuple[int, ...]:
        """What each station counts in this round, in the order in which the lane does them."""
        return tuple(
            self._worth(self.plan_station(position), index)
            for position in range(len(self.piece.stations))
        )

    def round_reps(self, index: int) -> int:
        return sum(self.station_worths(index))

    def before(self, index: int) -> int:
        """All reps of the rounds before this one."""
        return sum(self.round_reps(earlier) for earlier in range(index))

    @property
    def is_even(self) -> bool:
        """Whether every round is worth the same."""
        return self.piece.scheme is None and not any(
            amount.climb
            for station in self.piece.stations
            for amount in (station, *station.options)
        )

    @property
    def total(self) -> int | None:
        """The reps of the whole work; None where it isn't a set amount."""
        return None if self.piece.rounds is None else self.before(self.piece.rounds)

    def position_of(self, index: int, odd: int) -> int:
        """How many stations of the round are done for certain after so many odd reps of it.

        A station that counts nothing is done for certain only when a later one has begun.
        """
        ends = tuple(accumulate(self.station_worths(index), initial=0))
        return ends.index(odd) if odd in ends else sum(end < odd for end in ends) - 1

    def done_within(self, index: int, position: int) -> int:
        """The reps of the round's first `position` stations."""
        return sum(self.station_worths(index)[:position])

    def _worth(self, place: int, index: int) -> int:
        station = self.piece.stations[place]
        chosen = self.lane.option(place)
        option = station.options[chosen - 1] if 0 < chosen <= len(station.options) else None
        return share_of(self.lane.portion, worth(station, option, index, self.piece.scheme))
