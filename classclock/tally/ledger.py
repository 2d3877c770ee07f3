"""The entries of every lane, with what was taken back: nothing is ever taken out."""

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.tally.events import LaneEvent


class Entry(Struct, frozen=True):
    """One entry. `arrived` is the number of the event that brought it to its lane."""

    number: int
    event: LaneEvent
    arrived: int
    stands: bool = True


class Ledgers(Struct, frozen=True):
    """By lane, each in the order in which the entries happened."""

    lanes: Mapping[str, tuple[Entry, ...]] = field(default_factory=dict)
    taken: tuple[int, ...] = ()
    """The numbers of what is taken back, the latest last."""

    def standing(self, lane: str) -> tuple[Entry, ...]:
        return tuple(entry for entry in self.lanes.get(lane, ()) if entry.stands)

    def by_arrival(self, lane: str) -> tuple[int, ...]:
        """The numbers of the entries that stand, the newest last; a moved one is new."""
        standing = sorted(self.standing(lane), key=lambda entry: entry.arrived)
        return tuple(entry.number for entry in standing)

    def lane_of(self, number: int) -> str | None:
        for lane, entries in self.lanes.items():
            if any(entry.number == number for entry in entries):
                return lane
        return None

    def add(self, lane: str, entry: Entry) -> "Ledgers":
        return replace(self, lanes={**self.lanes, lane: (*self.lanes.get(lane, ()), entry)})

    def take(self, lane: str, number: int) -> "Ledgers":
        return self._stand(lane, number, stands=False).note_taken(number)

    def bring(self, lane: str, number: int) -> "Ledgers":
        return self._stand(lane, number, stands=True).note_back(number)

    def note_taken(self, number: int) -> "Ledgers":
        return replace(self, taken=(*self.taken, number))

    def note_back(self, number: int) -> "Ledgers":
        return replace(self, taken=tuple(taken for taken in self.taken if taken != number))

    def move(self, number: int, lane: str, to: str, *, arrived: int) -> "Ledgers":
        """The entry was the other lane's, with its moment."""
        here = self.lanes[lane]
        moved = [replace(entry, arrived=arrived) for entry in here if entry.number == number]
        there = (*self.lanes.get(to, ()), *moved)
        return replace(
            self,
            lanes={
                **self.lanes,
                lane: tuple(entry for entry in here if entry.number != number),
                to: tuple(sorted(there, key=lambda entry: entry.number)),
            },
        )

    def _stand(self, lane: str, number: int, *, stands: bool) -> "Ledgers":
        entries = tuple(
            replace(entry, stands=stands) if entry.number == number else entry
            for entry in self.lanes[lane]
        )
        return replace(self, lanes={**self.lanes, lane: entries})
