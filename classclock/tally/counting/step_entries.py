"""Entries that belong to a work step: the reps of an interval, the load of a set."""

from collections.abc import Callable

from msgspec.structs import replace

from classclock.tally import events as ev
from classclock.tally.counting.entry_time import EntryTime
from classclock.tally.counting.timed_piece import TimedPiece
from classclock.tally.counting.work_steps import step_of, work_steps
from classclock.tally.lane_tally import Attempt, LaneTally
from classclock.tally.refusal import Refusal
from classclock.units.loads import Load

HEAVY_PERCENT = 110
"""A load above this share of anything the athlete has handled is doubtful."""
NO_INTERVAL_YET = Refusal("no interval has begun yet")


def interval_tapped(timed: TimedPiece, tally: LaneTally, when: EntryTime) -> LaneTally | Refusal:
    """One rep more of the interval that is on."""
    latest = len(work_steps(timed.timeline, when.elapsed))
    if not latest:
        return NO_INTERVAL_YET
    return _with_interval(tally, latest, (_interval(tally, latest) or 0) + 1)


def _interval(tally: LaneTally, number: int) -> int | None:
    return tally.intervals[number - 1] if number <= len(tally.intervals) else None


def _with_interval(tally: LaneTally, number: int, reps: int) -> LaneTally:
    given = list(tally.intervals)
    given[number - 1] = reps
    return replace(tally, intervals=tuple(given))


def interval_set(
    timed: TimedPiece, tally: LaneTally, event: ev.Numbered, when: EntryTime
) -> LaneTally | Refusal:
    number = _named_step(
        timed, tally, event.interval, when, lambda before: _interval(tally, before) is None
    )
    return number if isinstance(number, Refusal) else _with_interval(tally, number, event.reps or 0)


def _named_step(
    timed: TimedPiece,
    tally: LaneTally,
    named: int | None,
    when: EntryTime,
    lacks: Callable[[int], bool],
) -> int | Refusal:
    """The work step that an entry speaks of, from 1; one still to come is refused."""
    key = tally.lane.key
    begun = len(work_steps(timed.timeline, when.elapsed))
    if named is None:
        return step_of(timed.timeline, when.elapsed, lacks) or NO_INTERVAL_YET
    if not 1 <= named <= timed.timeline.steps:
        return Refusal(f"there are intervals 1 to {timed.timeline.steps}: as in {begun}:12{key}")
    if named > begun:
        return Refusal(f"interval {named} hasn't begun, this is {begun}: as in {begun}:12{key}")
    return named


def lifted(
    timed: TimedPiece, tally: LaneTally, event: ev.Lifted, when: EntryTime
) -> LaneTally | Refusal:
    piece, key = timed.piece, tally.lane.key
    if piece.counts_by != "load":
        return Refusal("this piece counts no loads: misses and loads belong to a lift")
    if event.instead:
        return _load_put_right(tally, event)
    if timed.timeline.steps > 1:
        done = {tried.number for tried in tally.attempts}
        number = _named_step(timed, tally, event.interval, when, lambda before: before not in done)
        if isinstance(number, Refusal):
            return number
    else:
        number = len(tally.attempts) + 1
    load = event.load or piece.planned_load(tally.lane, number)
    if load is None and event.made:
        return Refusal(f"no load is planned for {tally.lane.name}: type it, as in 60{key}")
    doubtful = _far_above(tally, load, typed=event.load is not None)
    tried = Attempt(load, event.made, when.elapsed, number, doubtful=doubtful)
    return replace(tally, attempts=(*tally.attempts, tried))


def _load_put_right(tally: LaneTally, event: ev.Lifted) -> LaneTally | Refusal:
    """The first load in doubt was another, in doubt itself if it is far above the rest.

    The same once more says that it is right.
    """
    at = tally.load_in_doubt
    if at is None:
        return Refusal(f"no load of {tally.lane.name}'s is in doubt: type it with {tally.lane.key}")
    before, after = tally.attempts[:at], tally.attempts[at + 1 :]
    others = replace(tally, attempts=(*before, *after))
    said = tally.attempts[at]
    doubtful = event.load != said.load and _far_above(others, event.load, typed=True)
    right = replace(said, load=event.load, doubtful=doubtful)
    return replace(tally, attempts=(*before, right, *after))


def _far_above(tally: LaneTally, load: Load | None, *, typed: bool) -> bool:
    """Whether a load is far above anything the athlete has handled, `825` for 82.5.

    What was made in this piece is handled too. Without a record nothing speaks against a first
    lift, nor against what the plan has, which is no slip of the fingers.
    """
    made = (tried.load for tried in tally.attempts if tried.made)
    handled = [known.kg for known in (tally.lane.heaviest, *made) if known is not None]
    if load is None or not handled or not (typed or tally.lane.heaviest):
        return False
    return load.kg * 100 > max(handled) * HEAVY_PERCENT
