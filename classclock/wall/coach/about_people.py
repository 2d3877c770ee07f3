"""What is known of people beside what they count: flags on their loads, marks, notes."""

from collections.abc import Collection, Iterator, Sequence
from typing import TYPE_CHECKING

from classclock.tally.events import Noted
from classclock.tally.load_flags import load_flags, loads_to_choose, open_flags
from classclock.tally.record import ClassRecord
from classclock.tally.signs import signed
from classclock.units.printable import printable
from classclock.wall.coach.coach_values import LaneWords

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

_LONGEST = 120


class AboutPeople:
    def __init__(
        self,
        record: ClassRecord,
        loads: "ClassLoads | None",
        notes: Sequence[Noted],
        segment: int | None,
    ) -> None:
        """Flags are those of this segment; of none where there is none."""
        self._record, self._notes = record, notes
        segments = () if segment is None else (segment,)
        self._open = frozenset(open_flags(record, loads, segments))
        self._flags = load_flags(record, loads, segments)
        self._to_choose = loads_to_choose(record, loads, segments)

    def flags(self, members: Collection[str]) -> tuple[LaneWords, ...]:
        """On the loads of these people, by their ids; in doubt until the coach has looked."""
        found = (flag for flag in self._flags if flag.person_id in members)
        return tuple(
            LaneWords(
                signed("load", printable(flag.text, _LONGEST)),
                "doubtful" if flag in self._open else "plain",
            )
            for flag in found
        )

    def to_choose(self, members: Collection[str]) -> Iterator[LaneWords]:
        """Whose share of a maximum nobody knows."""
        for flag in self._to_choose:
            if flag.person_id in members:
                yield LaneWords(signed("load", printable(flag.text, _LONGEST)), "doubtful")

    def remarks(self, members: Collection[str]) -> tuple[LaneWords, ...]:
        """Their marks, and what was noted of them, the newest first."""
        return tuple(self._remarks(members))

    def _remarks(self, members: Collection[str]) -> Iterator[LaneWords]:
        people = [one for one in self._record.people if one.id in members]
        several = len(people) > 1
        for person in people:
            whose = f"{printable(person.name, 24)}: " if several else ""
            for mark in person.marks:
                yield LaneWords(f"{whose}{mark}")
            for note in reversed(self._notes):
                if note.person_id == person.id:
                    yield LaneWords(f"{whose}note: {printable(note.text, _LONGEST)}")
