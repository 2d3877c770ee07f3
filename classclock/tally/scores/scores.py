"""Scores of a piece over all its heats, in the order of their ranks."""

from collections.abc import Mapping, Sequence
from itertools import chain, repeat

from classclock.tally.counting.portion_words import portion_in
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.scores import score_parts as parts
from classclock.tally.scores.lane_score import LaneScore, Status
from classclock.tally.scores.ranks import ranks, ranks_apart
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS
from classclock.units.times import show_time

__all__ = ["LaneScore", "Status", "places", "scores"]


def scores(sheets: Sequence[Sheet], *, now: int | None, settled: bool) -> tuple[LaneScore, ...]:
    """The scores of one piece, its heats together, in rank order; the unranked come last.

    `now` is the class's moment while the piece may still run, None once it is over. `settled`
    counts odd reps that nobody gave as none.
    """
    lanes = _lanes(sheets)
    ranked = _ranked(sheets)
    apart = _apart(sheets)
    order = sorted(
        range(len(lanes)),
        key=lambda n: (ranked[n] is None, apart and lanes[n][1].modified, ranked[n] or 0),
    )
    return tuple(_lane_score(*lanes[n], ranked[n], now=now, settled=settled) for n in order)


def places(sheets: Sequence[Sheet]) -> Mapping[str, int | None]:
    """Each lane's rank alone, by its id: what a running wall needs many times a second."""
    ranked = zip(_lanes(sheets), _ranked(sheets), strict=True)
    return {tally.lane.id: rank for (_, tally), rank in ranked}


def _lanes(sheets: Sequence[Sheet]) -> list[tuple[Sheet, LaneTally]]:
    return [(sheet, sheet.tallies[lane.id]) for sheet in sheets for lane in sheet.lanes]


def _apart(sheets: Sequence[Sheet]) -> bool:
    return any(sheet.piece.separate for sheet in sheets)


def _ranked(sheets: Sequence[Sheet]) -> tuple[int | None, ...]:
    """The ranks of the lanes, in their order."""
    lanes = _lanes(sheets)
    keys = [parts.rank_key(sheet.piece, tally) for sheet, tally in lanes]
    if _apart(sheets):
        return ranks_apart(keys, [tally.modified for _, tally in lanes])
    return ranks(keys)


def _lane_score(
    sheet: Sheet, tally: LaneTally, rank: int | None, *, now: int | None, settled: bool
) -> LaneScore:
    piece, lane = sheet.piece, tally.lane
    settled = settled or sheet.settled
    by_rounds = piece.counts_by == "rounds"
    heaviest = tally.heaviest if piece.counts_by == "load" else None
    options = _option_names(piece, lane.options)
    portion = next(iter(portion_in(piece.segment, lane)), None)
    return LaneScore(
        rank=rank,
        athlete=lane.name,
        score=parts.score_text(piece, tally, settled=settled),
        rounds=len(tally.rounds) if by_rounds else None,
        reps=parts.odd_reps(tally, settled=settled) if by_rounds else None,
        total_reps=_total_reps(piece, tally),
        time_s=None if tally.finish is None else parts.whole_seconds(tally.finish),
        load_kg=None if heaviest is None else heaviest.kg,
        modification=", ".join(name for name in (*options, portion) if name),
        status=_status(sheet, tally, now),
        best_before=None,
        note=_note(tally),
        lane=lane,
        key=lane.key,
        members=lane.members,
        heat=sheet.heat,
        late=lane.late,
        options=options,
        start_station=lane.start_station,
        splits=parts.whole_second_splits(tally),
        intervals=tally.intervals,
        attempts=tally.attempts,
        flags=() if settled else tally.doubts,
        loads=_station_loads(piece, tally),
        round_reps=tuple(done.reps for done in tally.rounds),
        own_options=None if lane.own_options is None else _option_names(piece, lane.own_options),
        option_changed_s=(
            None if tally.option_changed is None else parts.whole_seconds(tally.option_changed)
        ),
        portion=portion,
        partners=_partners(sheet, lane.id),
    )


def _partners(sheet: Sheet, lane: str) -> tuple[str, ...]:
    group = next((group for group in sheet.partners if lane in group), ())
    return tuple(other for other in group if other != lane)


def _total_reps(piece: Piece, tally: LaneTally) -> int | None:
    if piece.counts_by in ("nothing", "load"):
        return None
    if piece.counts_by == "intervals" and tally.correction is not None:
        return tally.correction.reps
    return tally.total_reps


def _status(sheet: Sheet, tally: LaneTally, now: int | None) -> Status:
    if tally.stopped is not None:
        return "absent" if tally.nothing_done else "stopped"
    if tally.finish is not None:
        return "finished"
    if now is not None and sheet.ended(now) is None:
        return "going"
    return "capped" if sheet.piece.can_finish else "scored"


def _option_names(piece: Piece, options: Sequence[int]) -> tuple[str | None, ...]:
    return tuple(
        station.options[number - 1].name if number else None
        for station, number in zip(piece.stations, chain(options, repeat(0)), strict=False)
    )


def _station_loads(piece: Piece, tally: LaneTally) -> tuple[str, ...]:
    loads = (piece.station_load(tally.lane, place) for place in range(len(piece.stations)))
    return tuple(said for said in loads if said)


def _note(tally: LaneTally) -> str:
    notes = []
    if tally.late:
        notes.append("late")
    if tally.stopped is not None and not tally.nothing_done:
        notes.append(f"stopped at {show_time(tally.stopped)}")
    if tally.option_changed is not None:
        notes.append(f"option changed at {show_time(tally.option_changed)}")
    if tally.corrected is not None:
        notes.append(f"{SIGNS['corrected'].word}: {tally.corrected}")
    return "; ".join(notes)
