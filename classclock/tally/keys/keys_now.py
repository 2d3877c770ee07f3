"""What the keys mean in a class at this moment: whose they are, and what the clock is doing."""

from collections.abc import Iterable

from classclock.tally.counting.counting import GRACE
from classclock.tally.keys.key_language import KeyContext
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import Sheet


def keys_now(record: ClassRecord, lanes: Iterable[Lane], at: int) -> KeyContext:
    """The keys as they are at this moment, in ms of the class.

    `lanes` are those of the segment on the board, all heats: only this heat's have a key now.
    """
    sheet = record.sheet
    piece = sheet.piece if sheet is not None else Piece.of(record.segment, record.unit)
    phase = _phase(record, at)
    asked = questions(sheet) if sheet is not None and phase == "over" else ()
    return KeyContext(
        keys={lane.key: lane.id for lane in lanes if lane.heat == record.chosen.heat},
        phase=phase,
        counts_by=piece.counts_by,
        can_change_time=record.segment.about.minutes_can_change,
        all_in=sheet is not None and sheet.all_in(at) is not None,
        asked=asked[0] if asked else None,
    )


def _phase(record: ClassRecord, at: int) -> KeyPhase:
    phase, sheet = record.phase(at), record.sheet
    if phase == "over" and sheet is not None and _taps_still_count(sheet, at):
        return "late"
    return "over" if phase == "closed" else phase


def _taps_still_count(sheet: Sheet, at: int) -> bool:
    """Whether a bare letter is still a tap though the cap has passed: a thumb is late."""
    scored = sheet.piece.counts_by != "nothing"
    return scored and sheet.ended_by is None and sheet.late_by(at) <= GRACE
