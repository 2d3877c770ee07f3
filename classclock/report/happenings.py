"""What happened in a class beside what was counted: accidents, holds, notes, each with its time.

For the club's own file, never for the room: values, from a class's journal.
"""

from collections.abc import Iterable, Iterator
from datetime import datetime
from typing import Literal

from msgspec import Struct

from classclock.book.files.journal import Journal
from classclock.tally import events as ev
from classclock.tally.record import ClassRecord
from classclock.units.times import show_time


class Happening(Struct, frozen=True):
    when: datetime
    """The time of day, with its offset."""
    kind: Literal["accident", "hold", "note"]
    where: str
    """In which segment, and where its clock stood: `Turntable, 4:12`."""
    text: str


class Happenings(Struct, frozen=True):
    """`started` is RFC 3339."""

    title: str
    started: str
    club: str
    address: str
    happened: tuple[Happening, ...]

    def of_kind(self, kind: str) -> tuple[Happening, ...]:
        return tuple(one for one in self.happened if one.kind == kind)


def happenings(
    journal: Journal, before: ClassRecord, club: str = "", address: str = ""
) -> Happenings:
    """All of a class, in the order in which it happened; `before` is the record before its events.

    Raises:
        LookupError, ArithmeticError, TypeError, ValueError: an event doesn't fit those before it.
    """
    started = journal.anchors[0].wall
    found = tuple(_Teller(journal, before).told())
    return Happenings(before.plan.title, started, club, address, found)


def _names(events: Iterable[ev.Event]) -> dict[str, str]:
    """By id, as people are called last: a visitor may have got a name since."""
    names: dict[str, str] = {}
    for event in events:
        match event:
            case ev.ClassOpened(people=people):
                names |= {one.id: one.name for one in people}
            case ev.PersonAdded(person=person) | ev.PersonChanged(person=person):
                names[person.id] = person.name
            case _:
                pass
    return names


class _Teller:
    """Goes through a journal, and knows at each event how the class stands."""

    def __init__(self, journal: Journal, before: ClassRecord) -> None:
        self._journal, self._record = journal, before
        self._names = _names(journal.events)

    def told(self) -> Iterator[Happening]:
        events = self._journal.events
        for number, event in enumerate(events):
            match event:
                case ev.EmergencyNoted(text=text):
                    yield self._happening(event, "accident", text)
                case ev.Noted(text=text, person_id=about):
                    name = "" if about is None else self._names.get(about, "")
                    yield self._happening(event, "note", f"{name}: {text}" if name else text)
                case ev.Held() if self._runs(event.at):
                    words = self._hold_words(event, events[number + 1 :])
                    yield self._happening(event, "hold", words)
                case _:
                    pass
            self._record = self._record.apply(number, event)

    def _happening(
        self, event: ev.Event, kind: Literal["accident", "hold", "note"], text: str
    ) -> Happening:
        return Happening(self._journal.time_of_day(event.at), kind, self._where(event.at), text)

    def _runs(self, at: int) -> bool:
        return self._record.phase(at) in ("count-in", "running")

    def _where(self, at: int) -> str:
        record = self._record
        name, sheet = record.segment.name, record.sheet
        if sheet is None:
            return f"{name}, before its start"
        if record.phase(at) in ("over", "closed"):
            return f"{name}, after its end"
        return f"{name}, {show_time(max(0, sheet.elapsed(at)))}"

    def _hold_words(self, held: ev.Held, later: tuple[ev.Event, ...]) -> str:
        for event in later:
            long = show_time((event.at - held.at) // 1000 * 1000)
            until = f"to {self._journal.time_of_day(event.at):%H:%M:%S}, {long}"
            match event:
                case ev.Resumed():
                    return until
                case ev.HoldUndone():
                    return f"{until}; taken back, as if it had never been held"
                case ev.SegmentEnded():
                    return f"{until}; ended there"
                case ev.Restarted():
                    return f"{until}; a false start, begun anew"
                case _:
                    pass
        return "until the journal ends"
