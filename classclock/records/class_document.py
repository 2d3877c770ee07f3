"""The results of a class, from its record."""

from decimal import Decimal
from typing import Any

from msgspec import UNSET, UnsetType

from classclock.plan.cautions import cautions_of
from classclock.plan.formats.fit import length_of_planned
from classclock.plan.model import is_piece
from classclock.records.document import (
    COLUMNS,
    VERSION,
    AttemptMade,
    LaneResults,
    PersonInClass,
    PieceResults,
    ResultsDocument,
)
from classclock.tally.effort.class_time import time_here
from classclock.tally.lane_tally import Attempt
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores
from classclock.units.loads import plain


def results_document(record: ClassRecord, *, started: str, journal: str) -> ResultsDocument:
    """All pieces that have run, each provisional or settled. `started` is RFC 3339.

    What has no `journal` is a rehearsal: nobody was there, so nothing is said of how long.
    """
    return ResultsDocument(
        version=VERSION,
        title=record.plan.title,
        started=started,
        journal=journal,
        people=tuple(
            PersonInClass(
                one.id,
                one.name,
                one.key,
                one.visitor,
                _left_after(record, one.id),
                record.efforts.get(one.id, UNSET),
                _here_s(record, one.id) if journal else UNSET,
            )
            for one in record.people
        ),
        pieces=tuple(_piece(record, key) for key in record.pieces()),
    )


def _left_after(record: ClassRecord, person_id: str) -> str | UnsetType:
    if person_id not in record.left:
        return UNSET
    run = record.left[person_id]
    return "" if run is None else record.plan.segment[run.segment].name


def _here_s(record: ClassRecord, person_id: str) -> int | UnsetType:
    here = time_here(record, person_id)
    return UNSET if here is None else here // 1000


def _piece(record: ClassRecord, key: RunKey) -> PieceResults:
    sheets = record.heats(key)
    segment, total = sheets[0].piece.segment, sheets[0].timeline.total
    assert is_piece(segment)  # noqa: S101  `pieces` gives no others
    planned = record.planned_length(key.segment, sheets[0])
    fitted = "" if planned is None else length_of_planned(total, planned)
    settled = all(sheet.settled for sheet in sheets)
    return PieceResults(
        name=segment.name,
        format=segment.format,
        benchmark=segment.benchmark,
        lift=segment.lift,
        sets=tuple(each.reps for each in segment.sets),
        length_s=total // 1000,
        planned_s=UNSET if planned is None else planned // 1000,
        caution=tuple(cautions_of(segment, record.stop)),
        attempt=key.attempt,
        status="settled" if settled else "provisional",
        lanes=tuple(_lane(score, fitted) for score in scores(sheets, now=None, settled=settled)),
    )


def _lane(score: LaneScore, fitted: str) -> LaneResults:
    """`fitted` is what is noted of a piece that was made shorter for the clock."""
    columns = {column: _plain(getattr(score, column)) for column in COLUMNS}
    if fitted and score.status not in ("finished", "absent"):
        columns["note"] = "; ".join(filter(None, (score.note, fitted)))
    return LaneResults(
        **columns,
        key=score.key,
        members=score.members,
        heat=score.heat,
        late=score.late,
        options=score.options,
        own_options=score.own_options,
        start_station=score.start_station,
        splits=score.splits,
        intervals=score.intervals,
        attempts=tuple(_attempt(attempt) for attempt in score.attempts),
        flags=score.flags,
        loads=score.loads,
        round_reps=score.round_reps,
        option_changed_s=score.option_changed_s,
        portion=score.portion or UNSET,
        partners=score.partners or UNSET,
    )


def _attempt(attempt: Attempt) -> AttemptMade:
    load = attempt.load
    return AttemptMade(
        attempt.number,
        str(load) if load is not None else None,
        _plain(load.kg) if load is not None else None,
        attempt.made,
    )


def _plain(value: object) -> Any:
    """A Decimal as the number it is; JSON has no other way to say 22.5 exactly."""
    if isinstance(value, Decimal):
        text = plain(value)
        return float(text) if "." in text else int(text)
    return value
