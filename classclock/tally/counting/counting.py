"""What one entry does to one lane, or why it isn't counted.

The fold and `decide` ask here, so that what is refused live is what a replay leaves out.
"""

from collections.abc import Callable, Mapping
from typing import Any

from msgspec.structs import replace

from classclock.tally import events as ev
from classclock.tally.counting import counting_steps as steps
from classclock.tally.counting import rounds
from classclock.tally.counting.moment import Moment, Place
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.refusal import Refusal

GRACE = 3000
"""So long after the end a tap still counts, as at the end. Milliseconds."""
MOST_ROUNDS = 999
"""More than anybody does: a slip of the fingers."""


def count(
    place: Place, tally: LaneTally, event: ev.LaneEvent, moment: Moment
) -> LaneTally | Refusal:
    """The lane's tally after one more entry, or why the entry counts nothing."""
    piece = place.piece
    if piece.counts_by == "nothing":
        return Refusal(f"{piece.segment.name} isn't scored: there is nothing to count")
    if moment.elapsed < 0 and not isinstance(event, ev.OptionChanged | ev.StoppedHere):
        return Refusal("not started yet: counting begins at go")
    if refusal := _corrected_already(piece, tally, event):
        return refusal
    counted = COUNTED[type(event)](place, tally, event, moment)
    if isinstance(counted, Refusal):
        return counted
    return replace(counted, station=rounds.station_on(piece, counted))


def _corrected_already(piece: Piece, tally: LaneTally, event: ev.LaneEvent) -> Refusal | None:
    """A correction of these is the whole score: what came after it would count nothing."""
    steps_counted = piece.counts_by in ("intervals", "load")
    if tally.correction is None or not steps_counted or isinstance(event, ev.Corrected):
        return None
    if isinstance(event, ev.StoppedHere | ev.OptionChanged):
        return None
    name, key = tally.lane.name, tally.lane.key
    return Refusal(f"{name}'s score was corrected: correct it again, or -{key} takes that back")


def _too_late(tally: LaneTally, moment: Moment) -> Refusal | None:
    if moment.late_by <= GRACE:
        return None
    key = tally.lane.key
    return Refusal(
        f"too late to tap for {tally.lane.name}, {moment.late_by // 1000} s after the end: "
        f"type the number, then {key}"
    )


def _out(tally: LaneTally) -> Refusal | None:
    if tally.finish is not None:
        return Refusal(f"{tally.lane.name} has finished: -{tally.lane.key} takes it back")
    if tally.stopped is not None:
        return Refusal(f"{tally.lane.name} has stopped: -{tally.lane.key} takes it back")
    return None


def _tapped(
    place: Place, tally: LaneTally, event: ev.Tapped, moment: Moment
) -> LaneTally | Refusal:
    if refusal := _out(tally) or _too_late(tally, moment):
        return refusal
    match place.piece.counts_by:
        case "rounds":
            return rounds.tap(place.piece, tally, moment.elapsed)
        case "reps":
            return replace(tally, reps=tally.reps + 1)
        case "intervals":
            return steps.interval_tapped(place, tally, event, moment)
        case _:
            lifted = ev.Lifted(event.at, event.lane, None, made=True)
            return steps.lifted(place, tally, lifted, moment)


def _numbered(
    place: Place, tally: LaneTally, event: ev.Numbered, moment: Moment
) -> LaneTally | Refusal:
    key, counts_by = tally.lane.key, place.piece.counts_by
    if event.rounds is not None and counts_by != "rounds":
        return Refusal(f"this piece doesn't count rounds: type the reps alone, 12{key}")
    if event.interval is not None and counts_by != "intervals":
        return Refusal(f"this piece has no intervals to name: leave out {event.interval}:")
    match counts_by:
        case "rounds":
            finished = _out(tally) if tally.finish is not None else None
            return finished or _rounds_set(place.piece, tally, event, moment)
        case "reps":
            return replace(tally, reps=event.reps or 0)
        case "intervals":
            return steps.interval_set(place, tally, event, moment)
        case _:
            return Refusal(f"this piece counts loads: type the load, then {key}")


def _rounds_set(
    piece: Piece, tally: LaneTally, event: ev.Numbered, moment: Moment
) -> LaneTally | Refusal:
    full = len(tally.rounds) if event.rounds is None else event.rounds
    key = tally.lane.key
    if piece.rounds is not None and full >= piece.rounds:
        if full > piece.rounds or event.reps:
            return Refusal(
                f"the work is {_rounds(piece.rounds)}: *{key} if {tally.lane.name} has finished"
            )
        return rounds.finish(piece, tally, moment.elapsed)
    if full > MOST_ROUNDS:
        return Refusal(f"{full} rounds can't be: type the full rounds, +, the odd reps, then {key}")
    counted = rounds.set_rounds(piece, tally, full)
    if event.reps is None:
        return counted
    worths = Work(piece, tally.lane).station_worths(full)
    size = sum(worths)
    if event.reps > size:
        return _more_than_the_round(piece, tally, full, event.reps, worths)
    return rounds.set_odd(piece, counted, event.reps, moment.elapsed)


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


def _finished(
    place: Place, tally: LaneTally, _: ev.FinishedNow, moment: Moment
) -> LaneTally | Refusal:
    if not place.piece.can_finish:
        key = tally.lane.key
        return Refusal(f"this piece has no finish: {key} counts, .{key} if {tally.lane.name} stops")
    if refusal := _out(tally) or _too_late(tally, moment):
        return refusal
    return rounds.finish(place.piece, tally, moment.elapsed)


def _stopped(_: Place, tally: LaneTally, __: ev.StoppedHere, moment: Moment) -> LaneTally | Refusal:
    return _out(tally) or replace(tally, stopped=max(0, moment.elapsed))


def _option_changed(
    place: Place, tally: LaneTally, event: ev.OptionChanged, moment: Moment
) -> LaneTally | Refusal:
    stations = place.piece.stations
    known = event.station < len(stations) and event.option <= len(stations[event.station].options)
    if event.option and not known:
        return Refusal("the plan has no such option")
    return rounds.change_option(place.piece, tally, event.station, event.option, moment.elapsed)


def _corrected(
    place: Place, tally: LaneTally, event: ev.Corrected, _: Moment
) -> LaneTally | Refusal:
    piece = place.piece
    noted = replace(tally, correction=event, remarks=(), asks_missed=False)
    match piece.counts_by:
        case "rounds" if event.finish is not None and piece.can_finish:
            return rounds.finish_as_corrected(piece, noted, event.finish)
        case "rounds" if event.finish is None:
            return _corrected_rounds(piece, noted, event.rounds or 0, event.reps or 0)
        case "reps":
            return replace(noted, reps=event.reps or 0)
        case "intervals" | "load":
            return noted
    return Refusal("this piece has no finish: write rounds and reps, as in 7+12")


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


COUNTED: Mapping[type[ev.LaneEvent], Callable[[Place, LaneTally, Any, Moment], LaneTally | Refusal]]
COUNTED = {
    ev.Tapped: _tapped,
    ev.Numbered: _numbered,
    ev.Lifted: steps.lifted,
    ev.FinishedNow: _finished,
    ev.StoppedHere: _stopped,
    ev.OptionChanged: _option_changed,
    ev.Corrected: _corrected,
}
