"""What one entry does to one lane, or why it isn't counted.

The fold and `decide` ask here, so that what is refused live is what a replay leaves out.
"""

from typing import assert_never

from msgspec.structs import replace

from classclock.tally import events as ev
from classclock.tally.counting import rounds, step_entries
from classclock.tally.counting.entry_time import EntryTime
from classclock.tally.counting.let_stand import let_stand
from classclock.tally.counting.timed_piece import TimedPiece
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.refusal import Refusal

GRACE = 3000
"""So long after the end a tap still counts, as at the end. Milliseconds."""
MOST_ROUNDS = 999
"""More than anybody does: a slip of the fingers."""


def count(
    timed: TimedPiece, tally: LaneTally, event: ev.LaneEvent, when: EntryTime
) -> LaneTally | Refusal:
    """The lane's tally after one more entry, or why the entry counts nothing."""
    piece = timed.piece
    if piece.counts_by == "nothing":
        return _not_scored(piece)
    if when.elapsed < 0 and not isinstance(event, ev.OptionChanged | ev.StoppedHere):
        return Refusal("not started yet: counting begins at go")
    if refusal := _corrected_already(piece, tally, event):
        return refusal
    counted = _counted(timed, tally, event, when)
    if isinstance(counted, Refusal):
        return counted
    return replace(counted, station=rounds.station_on(piece, counted))


def _counted(
    timed: TimedPiece, tally: LaneTally, event: ev.LaneEvent, when: EntryTime
) -> LaneTally | Refusal:
    match event:
        case ev.Tapped():
            return _tapped(timed, tally, event, when)
        case ev.Numbered():
            return _numbered(timed, tally, event, when)
        case ev.Lifted():
            return step_entries.lifted(timed, tally, event, when)
        case ev.FinishedNow():
            return _finished(timed, tally, when)
        case ev.StoppedHere():
            return _out(tally) or replace(tally, stopped=max(0, when.elapsed))
        case ev.OptionChanged():
            return _option_changed(timed.piece, tally, event, when)
        case ev.Corrected():
            return _corrected(timed.piece, tally, event)
        case ev.LetStand():
            return let_stand(timed.piece, tally, event)
        case _:
            assert_never(event)


def _not_scored(piece: Piece) -> Refusal:
    return Refusal(f"{piece.segment.name} isn't scored: there is nothing to count")


def _corrected_already(piece: Piece, tally: LaneTally, event: ev.LaneEvent) -> Refusal | None:
    """A correction of these is the whole score: what came after it would count nothing."""
    steps_counted = piece.counts_by in ("intervals", "load")
    if tally.correction is None or not steps_counted or isinstance(event, ev.Corrected):
        return None
    if isinstance(event, ev.StoppedHere | ev.OptionChanged | ev.LetStand):
        return None
    name, key = tally.lane.name, tally.lane.key
    return Refusal(f"{name}'s score was corrected: correct it again, or -{key} takes that back")


def _too_late(tally: LaneTally, when: EntryTime) -> Refusal | None:
    if when.late_by <= GRACE:
        return None
    key = tally.lane.key
    return Refusal(
        f"too late to tap for {tally.lane.name}, {when.late_by // 1000} s after the end: "
        f"type the number, then {key}"
    )


def _out(tally: LaneTally) -> Refusal | None:
    if tally.finish is not None:
        return Refusal(f"{tally.lane.name} has finished: -{tally.lane.key} takes it back")
    if tally.stopped is not None:
        return Refusal(f"{tally.lane.name} has stopped: -{tally.lane.key} takes it back")
    return None


def _tapped(
    timed: TimedPiece, tally: LaneTally, event: ev.Tapped, when: EntryTime
) -> LaneTally | Refusal:
    if refusal := _out(tally) or _too_late(tally, when):
        return refusal
    match timed.piece.counts_by:
        case "rounds":
            return rounds.tap(timed.piece, tally, when.elapsed)
        case "reps":
            return replace(tally, reps=tally.reps + 1)
        case "intervals":
            return step_entries.interval_tapped(timed, tally, when)
        case "load":
            lifted = ev.Lifted(event.at, event.lane, None, made=True)
            return step_entries.lifted(timed, tally, lifted, when)
        case "nothing":
            return _not_scored(timed.piece)
        case _:
            assert_never(timed.piece.counts_by)


def _numbered(
    timed: TimedPiece, tally: LaneTally, event: ev.Numbered, when: EntryTime
) -> LaneTally | Refusal:
    key, counts_by = tally.lane.key, timed.piece.counts_by
    if event.rounds is not None and counts_by != "rounds":
        return Refusal(f"this piece doesn't count rounds: type the reps alone, 12{key}")
    if event.interval is not None and counts_by != "intervals":
        return Refusal(f"this piece has no intervals to name: leave out {event.interval}:")
    match counts_by:
        case "rounds":
            finished = _out(tally) if tally.finish is not None else None
            return finished or _rounds_set(timed.piece, tally, event, when)
        case "reps":
            return replace(tally, reps=event.reps or 0)
        case "intervals":
            return step_entries.interval_set(timed, tally, event, when)
        case "load":
            return Refusal(f"this piece counts loads: type the load, then {key}")
        case "nothing":
            return _not_scored(timed.piece)
        case _:
            assert_never(counts_by)


def _rounds_set(
    piece: Piece, tally: LaneTally, event: ev.Numbered, when: EntryTime
) -> LaneTally | Refusal:
    full = len(tally.rounds) if event.rounds is None else event.rounds
    key = tally.lane.key
    if piece.rounds is not None and full >= piece.rounds:
        if full > piece.rounds or event.reps:
            return Refusal(
                f"the work is {_rounds(piece.rounds)}: *{key} if {tally.lane.name} has finished"
            )
        return rounds.finish(piece, tally, when.elapsed)
    if full > MOST_ROUNDS:
        return Refusal(f"{full} rounds can't be: type the full rounds, +, the odd reps, then {key}")
    counted = rounds.set_rounds(piece, tally, full)
    if event.reps is None:
        return counted
    worths = Work(piece, tally.lane).station_worths(full)
    size = sum(worths)
    if event.reps > size:
        return _more_than_the_round(piece, tally, full, event.reps, worths)
    return rounds.set_odd(piece, counted, event.reps, when.elapsed)


def _rounds(number: int) -> str:
    return "1 round" if number == 1 else f"{number} rounds"


def _more_than_the_round(
    piece: Piece, tally: LaneTally, full: int, reps: int, worths: tuple[int, ...]
) -> Refusal:
    key, size = tally.lane.key, sum(worths)
    whole = f"{key} for the round" if piece.count != "finish" else f"{full + 1}+{key} for the round"
    if not size:
        return Refusal(f"this round counts no reps: {whole}")
    parts = "+".join(str(worth) for worth in worths if worth)
    sum_of = f" of {parts}" if "+" in parts else ""
    return Refusal(
        f"{reps} is more than the whole round, {size}{sum_of}: "
        f"at most {size - 1} odd reps, or {whole}"
    )


def _finished(timed: TimedPiece, tally: LaneTally, when: EntryTime) -> LaneTally | Refusal:
    if not timed.piece.can_finish:
        key = tally.lane.key
        return Refusal(f"this piece has no finish: {key} counts, .{key} if {tally.lane.name} stops")
    if refusal := _out(tally) or _too_late(tally, when):
        return refusal
    return rounds.finish(timed.piece, tally, when.elapsed)


def _option_changed(
    piece: Piece, tally: LaneTally, event: ev.OptionChanged, when: EntryTime
) -> LaneTally | Refusal:
    stations = piece.stations
    known = event.station < len(stations) and event.option <= len(stations[event.station].options)
    if event.option and not known:
        return Refusal("the plan has no such option")
    return rounds.change_option(piece, tally, event.station, event.option, when.elapsed)


def _corrected(piece: Piece, tally: LaneTally, event: ev.Corrected) -> LaneTally | Refusal:
    sure = tuple(replace(tried, doubtful=False) for tried in tally.attempts)
    noted = replace(tally, correction=event, attempts=sure, cut="", remarks=(), asks_missed=False)
    match piece.counts_by:
        case "rounds":
            if event.finish is None:
                return _corrected_rounds(piece, noted, event.rounds or 0, event.reps or 0)
            if piece.can_finish:
                return rounds.finish_as_corrected(piece, noted, event.finish)
            return Refusal("this piece has no finish: write rounds and reps, as in 7+12")
        case "reps":
            return replace(noted, reps=event.reps or 0)
        case "intervals" | "load":
            return noted
        case "nothing":
            return _not_scored(piece)
        case _:
            assert_never(piece.counts_by)


def _corrected_rounds(piece: Piece, tally: LaneTally, full: int, odd: int) -> LaneTally | Refusal:
    if piece.rounds is not None and full >= piece.rounds:
        return Refusal(f"{_rounds(full)} is the whole work: write the time, as in 8:31")
    set_right = rounds.set_rounds(piece, replace(tally, finish=None), full)
    return replace(
        set_right,
        rounds=tuple(replace(done, doubtful=False) for done in set_right.rounds),
        odd=odd,
        odd_floor=odd,
        position=Work(piece, tally.lane).position_of(full, odd),
        station_since=None,
        station_doubtful=False,
    )
