"""The results of a class as the file holds them: plain values, ready for JSON."""

from decimal import Decimal
from typing import Any

from classclock.plan.cautions import cautions_of
from classclock.plan.model import is_piece
from classclock.tally.lane_tally import Attempt
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores
from classclock.units.loads import plain

COLUMNS = (
    "rank",
    "athlete",
    "score",
    "rounds",
    "reps",
    "total_reps",
    "time_s",
    "load_kg",
    "modification",
    "status",
    "best_before",
    "note",
)
"""The columns of a piece's CSV, in order; the JSON has them under the same names."""


def results_document(record: ClassRecord, *, started: str, journal: str) -> dict[str, Any]:
    """All pieces that have run, each provisional or settled. `started` is RFC 3339."""
    return {
        "title": record.plan.title,
        "started": started,
        "journal": journal,
        "people": [
            {"id": person.id, "name": person.name, "key": person.key} for person in record.people
        ],
        "pieces": [_piece(record, key) for key in record.pieces()],
    }


def _piece(record: ClassRecord, key: RunKey) -> dict[str, Any]:
    segment = record.plan.segment[key.segment]
    assert is_piece(segment)  # noqa: S101  `pieces` gives no others
    sheets = record.heats(key)
    settled = all(sheet.settled for sheet in sheets)
    return {
        "name": segment.name,
        "format": segment.format,
        "benchmark": segment.benchmark,
        "lift": segment.lift,
        "sets": [each.reps for each in segment.sets],
        "length_s": sheets[0].timeline.total // 1000,
        "caution": list(cautions_of(segment, record.stop)),
        "attempt": key.attempt,
        "status": "settled" if settled else "provisional",
        "lanes": [_lane(score) for score in scores(sheets, now=None, settled=settled)],
    }


def _lane(score: LaneScore) -> dict[str, Any]:
    return {
        **{column: _plain(getattr(score, column)) for column in COLUMNS},
        "key": score.key,
        "members": list(score.members),
        "heat": score.heat,
        "late": score.late,
        "options": list(score.options),
        "own_options": None if score.own_options is None else list(score.own_options),
        "start_station": score.start_station,
        "splits": list(score.splits),
        "intervals": list(score.intervals),
        "attempts": [_attempt(attempt) for attempt in score.attempts],
        "flags": list(score.flags),
        "loads": list(score.loads),
        "round_reps": list(score.round_reps),
        "option_changed_s": score.option_changed_s,
    }


def _attempt(attempt: Attempt) -> dict[str, Any]:
    load = attempt.load
    return {
        "set": attempt.number,
        "load": str(load) if load is not None else None,
        "load_kg": _plain(load.kg) if load is not None else None,
        "made": attempt.made,
    }


def _plain(value: object) -> object:
    """A Decimal as the number it is; JSON has no other way to say 22.5 exactly."""
    if isinstance(value, Decimal):
        text = plain(value)
        return float(text) if "." in text else int(text)
    return value
