"""What a class's journal has about one person: their entries, what was noted of them, no more.

Of a line that tells of several only what is theirs is taken. A note about somebody else isn't
theirs, though it may name them.
"""

from collections.abc import Iterable, Iterator
from typing import Any, assert_never

from msgspec import to_builtins

from classclock.book.files.journal import Journal
from classclock.book.handing_over.left_out import OnlyTheirNames
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person

Fields = dict[str, Any]


def lines_about(journal: Journal, ids: frozenset[str], names: OnlyTheirNames) -> tuple[Fields, ...]:
    """What is about somebody with these ids, each with its time of day; in the journal's order."""
    return tuple(_Reader(journal, ids, names).lines())


def people_in(journal: Journal) -> Iterator[Person]:
    """Everybody whom a journal names, as often as it does."""
    for event in journal.events:
        match event:
            case ev.ClassOpened(people=people):
                yield from people
            case ev.PersonAdded(person=person) | ev.PersonChanged(person=person):
                yield person
            case _:
                pass


def lines_naming(text: str, names: OnlyTheirNames) -> list[str]:
    """The lines of a plan or another text in which the person is named."""
    return [line.strip() for line in text.splitlines() if names.stand_in(line)]


class _Reader:
    """Goes through a journal, and knows at each event which lanes and entries are theirs."""

    def __init__(self, journal: Journal, ids: frozenset[str], names: OnlyTheirNames) -> None:
        self._journal, self._ids, self._names = journal, ids, names
        self._lanes: set[str] = set()
        self._entries: set[int] = set()

    def lines(self) -> Iterator[Fields]:
        for number, event in enumerate(self._journal.events):
            fields = self._fields(event)
            if fields is not None:
                self._entries.add(number)
                yield {
                    "when": self._when(event),
                    "n": number,
                    "event": type(event).__name__,
                    **fields,
                }

    def _fields(self, event: ev.Event) -> Fields | None:  # noqa: C901, PLR0912  one case an event
        """What an event says of the person; None where it says nothing."""
        match event:
            case ev.ClassOpened():
                here = [_person(one) for one in event.people if one.id in self._ids]
                return _said(people=here, plan=lines_naming(event.plan_text, self._names))
            case ev.SegmentAdded():
                return _said(plan=lines_naming(event.plan_text, self._names))
            case ev.PersonAdded() | ev.PersonChanged():
                theirs = event.person.id in self._ids
                return {"person": _person(event.person)} if theirs else None
            case (
                ev.PersonLeft()
                | ev.PersonBack()
                | ev.OptionChosen()
                | ev.LoadChosen()
                | ev.FlagAcknowledged()
                | ev.EffortSaid()
            ):
                return _all_of(event) if event.person_id in self._ids else None
            case ev.Noted():
                about = event.person_id
                theirs = about in self._ids if about else self._names.stand_in(event.text)
                return {"text": event.text} if theirs else None
            case ev.EmergencyNoted():
                return {"text": event.text} if self._names.stand_in(event.text) else None
            case ev.EquipmentShared():
                return self._shared(event)
            case ev.PartnersSet() | ev.TeamsSet():
                return self._grouped(event.segment, event.groups)
            case ev.SegmentStarted():
                return self._started(event)
            case ev.LaneJoined():
                return _said(lanes=self._own_lanes([event.lane]))
            case ev.Moved():
                return self._moved(event)
            case ev.TookBack() | ev.BroughtBack():
                return {"entry": event.entry} if event.entry in self._entries else None
            case (
                ev.Tapped()
                | ev.Numbered()
                | ev.Lifted()
                | ev.FinishedNow()
                | ev.StoppedHere()
                | ev.OptionChanged()
                | ev.Corrected()
                | ev.LetStand()
            ):
                return _all_of(event) if event.lane in self._lanes else None
            case (
                ev.ClassClosed()
                | ev.EffortSkipped()
                | ev.SegmentFitted()
                | ev.EndMoved()
                | ev.SegmentChosen()
                | ev.CalledOff()
                | ev.Held()
                | ev.Resumed()
                | ev.HoldUndone()
                | ev.Restarted()
                | ev.SegmentEnded()
                | ev.TimeAdded()
                | ev.ClockShifted()
                | ev.Settled()
            ):
                return None  # of the class as a whole
            case _:
                assert_never(event)

    def _moved(self, event: ev.Moved) -> Fields | None:
        """Of a call that came to them the moment too: until then it was somebody else's."""
        if event.lane in self._lanes:
            called = self._when(self._journal.events[event.entry])
            return {"entry": event.entry, "to_them": True, "called": called}
        known = event.entry in self._entries
        return {"entry": event.entry, "to_them": False} if known else None

    def _when(self, event: ev.Event) -> str:
        return self._journal.time_of_day(event.at).isoformat(timespec="seconds")

    def _shared(self, event: ev.EquipmentShared) -> Fields | None:
        if event.sharing is None:
            return None
        for place in event.sharing.places:
            if self._ids & {*place.members}:
                kept = to_builtins(place)
                kept["members"] = [one for one in place.members if one in self._ids]
                others = len(place.members) - len(kept["members"])
                way = event.sharing.way
                return {"segment": event.segment, "way": way, "others": others, **kept}
        return None

    def _grouped(self, segment: int, groups: Iterable[tuple[str, ...]]) -> Fields | None:
        for group in groups:
            if own := self._ids & {*group}:
                return {"segment": segment, "others": len(group) - len(own)}
        return None

    def _started(self, event: ev.SegmentStarted) -> Fields | None:
        lanes = self._own_lanes(event.lanes)
        return _said(lanes=lanes) and {
            "segment": event.segment,
            "heat": event.heat,
            "go": event.go,
            "lanes": lanes,
        }

    def _own_lanes(self, lanes: Iterable[Lane]) -> list[Fields]:
        """Those they are in; from then on entries of these are theirs."""
        found = []
        for lane in lanes:
            self._lanes.discard(lane.id)
            if own := [member for member in lane.members if member in self._ids]:
                self._lanes.add(lane.id)
                kept = to_builtins(lane)
                kept |= {"members": own, "others": len(lane.members) - len(own)}
                del kept["id"]
                if lane.members[0] not in self._ids:
                    del kept["key"]  # a team's is the first one's
                found.append(kept)
        return found


def _person(person: Person) -> Fields:
    kept: Fields = to_builtins(person)
    return kept


def _all_of(event: ev.Event) -> Fields:
    """All that an event says, but for the id by which it says of whom: it is them."""
    kept: Fields = to_builtins(event)
    return {key: value for key, value in kept.items() if key not in ("at", "lane", "person_id")}


def _said(**found: list[Any]) -> Fields | None:
    """What was found, if anything was."""
    return {key: value for key, value in found.items() if value} or None
