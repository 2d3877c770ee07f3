"""What the keys mean in a class at this moment: whose they are, and what the clock is doing."""

from collections.abc import Iterable

from classclock.tally.counting.counting import GRACE
from classclock.tally.keys.key_state import KeyContext, means_people
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.lanes import Lane
from classclock.tally.lineup import MOST_LANES
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.tally.scores.questions import questions
from classclock.tally.sheet import Sheet


def keys_now(record: ClassRecord, lanes: Iterable[Lane], at: int) -> KeyContext:
    """The keys as they are at this moment, in ms of the class.

    Between pieces they mean people, here or gone. From the start until a piece is settled they
    mean lanes: of `lanes`, all heats', those of the heat that is on.
    """
    sheet, phase = record.sheet, _phase(record, at)
    piece = sheet.piece if sheet is not None else Piece.of(record.segment, record.unit)
    asked = questions(sheet) if sheet is not None and phase == "over" else ()
    of_people = means_people(phase, piece.counts_by)
    too_many = of_people and len(record.people) > MOST_LANES
    here = [] if of_people else [lane for lane in lanes if lane.heat == record.chosen.heat]
    keys = {lane.key: lane.id for lane in here}
    if of_people and not too_many:
        keys = {person.key: person.id for person in record.people}
    return KeyContext(
        keys=keys,
        phase=phase,
        counts_by=piece.counts_by,
        can_change_time=record.segment.about.minutes_can_change,
        all_in=sheet is not None and sheet.all_in(at) is not None,
        asked=asked[0] if asked else None,
        alone={lane.id: lane.members[0] for lane in here if len(lane.members) == 1},
        options=len(piece.option_menu),
        too_many=too_many,
    )


def _phase(record: ClassRecord, at: int) -> KeyPhase:
    phase, sheet = record.phase(at), record.sheet
    if phase == "over" and sheet is not None and _taps_still_count(sheet, at):
        return "late"
    return "last" if phase == "closed" else phase


def _taps_still_count(sheet: Sheet, at: int) -> bool:
    """Whether a bare letter is still a tap though the cap has passed: a thumb is late."""
    scored = sheet.piece.counts_by != "nothing"
    return scored and sheet.ended_by is None and sheet.late_by(at) <= GRACE
