"""All tallies of a piece: a pure fold over what happened."""

from collections.abc import Mapping
from typing import assert_never

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.clock.running import RunningTime
from classclock.clock.timeline import Timeline
from classclock.plan.formats.timelines import timeline as compiled
from classclock.tally import events as ev
from classclock.tally.counting.counting import count
from classclock.tally.counting.entry_time import EntryTime
from classclock.tally.counting.rounds import begin_round, station_on
from classclock.tally.counting.timed_piece import TimedPiece
from classclock.tally.lane_tally import Attempt, LaneTally, Round
from classclock.tally.lanes import Lane, Person
from classclock.tally.ledger import Entry, Ledgers
from classclock.tally.piece import Piece
from classclock.tally.refusal import Refusal

__all__ = ["Attempt", "LaneTally", "Round", "Sheet"]

ALL_IN_STAYS = 10_000
"""The piece ends so long after everybody was in. Milliseconds."""


class HandEnd(Struct, frozen=True):
    """Ended on a key, by the event with this number at this moment of the class."""

    number: int
    at: int


class Sheet(Struct, frozen=True):
    piece: Piece
    timeline: Timeline
    clock: RunningTime
    heat: int
    lanes: tuple[Lane, ...]
    """As they stood at the start, and those who joined."""
    tallies: Mapping[str, LaneTally]
    partners: tuple[tuple[str, ...], ...] = ()
    """Which lanes share a bar, by their ids, each group in the order of its turns."""
    settled: bool = False
    ledgers: Ledgers = field(default_factory=Ledgers)
    joined: Mapping[str, int] = field(default_factory=dict)
    """The class's moment at which each lane that came late joined."""
    hand_ends: tuple[HandEnd, ...] = ()
    ended_by: HandEnd | None = None
    everybody_in: int | None = None
    """The class's moment since which everybody is in."""
    ended_all_in: int | None = None
    """Ended because everybody was in: elapsed ms. A later take-back doesn't start it again."""

    @classmethod
    def begin(cls, piece: Piece, timeline: Timeline, event: ev.SegmentStarted) -> "Sheet":
        """The empty sheet of a segment whose count-in has begun."""
        sheet = cls(
            piece=piece,
            timeline=timeline,
            clock=RunningTime(event.go),
            heat=event.heat,
            lanes=event.lanes,
            tallies={},
            partners=event.partners,
        )
        return replace(sheet, tallies={lane.id: sheet.blank(lane) for lane in event.lanes})

    # -- time ----------------------------------------------------------------------

    def elapsed(self, at: int) -> int:
        """Milliseconds of the piece gone at this moment, not beyond its end."""
        return min(self.clock.elapsed(at), self.end(at))

    def end(self, now: int) -> int:
        """The elapsed milliseconds at which the piece ends, as things stand at this moment."""
        total = self.timeline.total
        if (hand := self._hand_end(now)) is not None:
            return min(self.clock.elapsed(hand.at), total)
        if self.ended_all_in is not None:
            return self.ended_all_in
        if self.everybody_in is not None:
            return min(total, self.clock.elapsed(self.everybody_in) + ALL_IN_STAYS)
        return total

    def ended(self, now: int) -> int | None:
        """The elapsed milliseconds at which the piece ended, if it has by this moment."""
        end = self.end(now)
        return end if self.clock.elapsed(now) >= end else None

    def all_in(self, now: int) -> int | None:
        """The elapsed milliseconds at which everybody was in, if they are by this moment."""
        if self.everybody_in is None or self.everybody_in > now:
            return None
        return min(self.clock.elapsed(self.everybody_in), self.timeline.total)

    def late_by(self, at: int) -> int:
        """How long after the piece's end this moment is, in milliseconds; negative before it."""
        hand = self._hand_end(at)
        return self.clock.elapsed(at) - self.end(at) if hand is None else at - hand.at

    def _hand_end(self, at: int) -> HandEnd | None:
        """How it was ended on a key, if it had been by this moment."""
        hand = self.ended_by
        return hand if hand is not None and hand.at <= at else None

    # -- the fold ------------------------------------------------------------------

    def apply(self, number: int, event: ev.SheetEvent) -> "Sheet":
        """The sheet after one more event, the class's `number`th."""
        sheet = _closed_if_all_in(self, event.at)
        if isinstance(event, ev.ClockEvent):
            changed = _on_the_clock(sheet, number, event)
        else:
            changed = _on_the_count(sheet, number, event)
        return _watching_all_in(changed, event.at)

    def called(self, person: Person) -> "Sheet":
        """With somebody in it under the name that they have now."""
        lanes = tuple(lane.called(person) for lane in self.lanes)
        if lanes == self.lanes:
            return self
        tallies = {lane.id: replace(self.tallies[lane.id], lane=lane) for lane in lanes}
        return replace(self, lanes=lanes, tallies=tallies)

    def blank(self, lane: Lane) -> LaneTally:
        """The lane with nothing counted yet."""
        joined = self.clock.elapsed(self.joined[lane.id]) if lane.id in self.joined else 0
        steps = self.timeline.steps if self.piece.counts_by == "intervals" else 0
        tally = LaneTally(lane, joined=joined, intervals=(None,) * steps)
        begun = begin_round(self.piece, tally, joined)
        return replace(begun, station=station_on(self.piece, begun))

    def counted(self, tally: LaneTally, event: ev.LaneEvent) -> LaneTally | Refusal:
        """What this entry makes of a lane's tally, or why it counts nothing."""
        when = EntryTime(self.elapsed(event.at), self.late_by(event.at))
        return count(TimedPiece(self.piece, self.timeline), tally, event, when)

    def with_entry(self, lane: str, entry: Entry) -> "Sheet":
        """The lane with one more entry, which is its newest."""
        tally = self._step(self.tallies[lane], entry)
        return replace(
            self,
            ledgers=self.ledgers.add(lane, entry),
            tallies={**self.tallies, lane: tally},
        )

    def _step(self, tally: LaneTally, entry: Entry) -> LaneTally:
        counted = self.counted(tally, entry.event)
        if isinstance(counted, Refusal):
            return replace(
                tally,
                remarks=(*tally.remarks, counted.text),
                entries=(*tally.entries, entry.number),
                uncounted=(*tally.uncounted, entry.number),
            )
        counted = replace(counted, entries=(*tally.entries, entry.number))
        return counted.settled() if self.settled else counted

    def refold(self, *lanes: str) -> "Sheet":
        """Count these lanes again from their entries; all of them where none is named."""
        by_id = {lane.id: lane for lane in self.lanes}
        tallies = dict(self.tallies)
        for lane in lanes or by_id:
            tally = self.blank(by_id[lane])
            for entry in self.ledgers.standing(lane):
                tally = self._step(tally, entry)
            newest_last = self.ledgers.by_arrival(lane)
            tally = replace(tally, entries=newest_last)
            tallies[lane] = tally.settled() if self.settled else tally
        return replace(self, tallies=tallies)


def newest_entries(sheet: Sheet) -> tuple[int, ...]:
    """The numbers of all entries that stand, the newest first; the end on a key is one of them."""
    ledgers, end = sheet.ledgers, sheet.ended_by
    arrived = {
        entry.number: entry.arrived for lane in sheet.lanes for entry in ledgers.standing(lane.id)
    }
    if end is not None:
        arrived[end.number] = end.number
    return tuple(sorted(arrived, key=lambda number: arrived[number], reverse=True))


def _closed_if_all_in(sheet: Sheet, at: int) -> Sheet:
    """Once the time of "all in" has run out the piece is over, whatever is taken back later."""
    if sheet.everybody_in is None or sheet.ended_by is not None or sheet.ended_all_in is not None:
        return sheet
    end = sheet.ended(at)
    if end is None or end >= sheet.timeline.total:
        return sheet
    return replace(sheet, ended_all_in=end)


def _watching_all_in(sheet: Sheet, at: int) -> Sheet:
    everybody = bool(sheet.tallies) and all(tally.out for tally in sheet.tallies.values())
    if everybody == (sheet.everybody_in is not None):
        return sheet
    return replace(sheet, everybody_in=at if everybody else None)


# -- a rule for each event ---------------------------------------------------------


def _on_the_clock(sheet: Sheet, number: int, event: ev.ClockEvent) -> Sheet:
    clock = sheet.clock
    match event:
        case ev.Held():
            return sheet if clock.held else replace(sheet, clock=clock.hold(event.at))
        case ev.Resumed():
            return replace(sheet, clock=clock.resume(event.at)) if clock.held else sheet
        case ev.HoldUndone():
            return replace(sheet, clock=clock.never_held()).refold() if clock.held else sheet
        case ev.SegmentEnded():
            if sheet.ended(event.at) is not None:
                return sheet
            end = HandEnd(number, event.at)
            return replace(sheet, ended_by=end, hand_ends=(*sheet.hand_ends, end))
        case ev.TimeAdded(by=by):
            segment = sheet.piece.segment
            if segment.about.in_steps:
                return sheet  # its steps say how long it is
            longer = compiled(segment, sheet.timeline.total + by)
            return replace(sheet, timeline=longer).refold()
        case ev.ClockShifted(by=by):
            return replace(sheet, clock=clock.shift(event.at, by))
        case _:
            assert_never(event)


def _on_the_count(sheet: Sheet, number: int, event: ev.CountEvent) -> Sheet:
    if isinstance(event, ev.LaneEvent):
        if event.lane not in sheet.tallies:
            return sheet
        return sheet.with_entry(event.lane, Entry(number, event, arrived=number))
    match event:
        case ev.LaneJoined(lane=lane):
            return sheet if lane.id in sheet.tallies else _joined(sheet, lane, event.at)
        case ev.TookBack(entry=entry):
            return _took_back(sheet, entry)
        case ev.BroughtBack(entry=entry):
            return _brought_back(sheet, entry)
        case ev.Moved(entry=entry, lane=to):
            lane_id = sheet.ledgers.lane_of(entry)
            if lane_id is None or to not in sheet.tallies or lane_id == to:
                return sheet
            moved = sheet.ledgers.move(entry, lane_id, to, arrived=number)
            return replace(sheet, ledgers=moved).refold(lane_id, to)
        case ev.Settled():
            tallies = {lane: tally.settled() for lane, tally in sheet.tallies.items()}
            return replace(sheet, settled=True, tallies=tallies)
        case _:
            assert_never(event)


def _joined(sheet: Sheet, lane: Lane, at: int) -> Sheet:
    sheet = replace(sheet, lanes=(*sheet.lanes, lane), joined={**sheet.joined, lane.id: at})
    return replace(sheet, tallies={**sheet.tallies, lane.id: sheet.blank(lane)})


def _took_back(sheet: Sheet, entry: int) -> Sheet:
    if sheet.ended_by is not None and sheet.ended_by.number == entry:
        return replace(sheet, ended_by=None, ledgers=sheet.ledgers.note_taken(entry))
    lane = sheet.ledgers.lane_of(entry)
    if lane is None:
        return sheet
    return replace(sheet, ledgers=sheet.ledgers.take(lane, entry)).refold(lane)


def _brought_back(sheet: Sheet, entry: int) -> Sheet:
    for end in sheet.hand_ends:
        if end.number == entry:
            return replace(sheet, ended_by=end, ledgers=sheet.ledgers.note_back(entry))
    lane = sheet.ledgers.lane_of(entry)
    if lane is None:
        return sheet
    return replace(sheet, ledgers=sheet.ledgers.bring(lane, entry)).refold(lane)
