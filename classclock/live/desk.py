"""The coach's keys at work on a class: strokes in, what the coach meant carried out.

The screens and a rehearsal both type here, so that they can't come to differ.
"""

from msgspec import Struct

from classclock.live.live_class import LiveClass, Outcome
from classclock.plan.model import Countdown
from classclock.tally import commands as cmd
from classclock.tally.counting.counting import GRACE
from classclock.tally.keys.actions import Phase
from classclock.tally.keys.key_language import (
    KeyContext,
    KeyState,
    Stroke,
    lapse,
    pending_shown,
    press,
)
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import Sheet


class Answer(Struct, frozen=True):
    """What a stroke came to: a notice, an outcome, or something only a screen can do."""

    notice: str = ""
    outcome: Outcome | None = None
    screen: cmd.ScreenCommand | None = None


class Desk:
    """Holds what is pending, and hands commands to the live class."""

    def __init__(self, live: LiveClass) -> None:
        self.live = live
        self._state = KeyState()

    @property
    def pending(self) -> str:
        """What has been typed and waits for its letter."""
        return pending_shown(self._state)

    def stroke(self, stroke: Stroke) -> Answer:
        """One stroke of a key."""
        pressed = press(self._state, stroke, self._context(stroke.at))
        self._state = pressed.state
        command = pressed.command
        if command is None:
            return Answer(pressed.notice or "")
        if isinstance(command, cmd.ScreenCommand):
            return Answer(pressed.notice or "", screen=command)
        return Answer(pressed.notice or "", outcome=self.live.do(command, stroke.at))

    def lapse(self, real: int) -> str:
        """Drop what has been pending too long by this moment of real time; what to say of it."""
        self._state, notice = lapse(self._state, real)
        return notice or ""

    def _context(self, at: int) -> KeyContext:
        record = self.live.record
        sheet = record.sheet
        lanes = sheet.lanes if sheet is not None else self.live.lineup()
        here = [lane for lane in lanes if lane.heat == record.chosen.heat]
        piece = sheet.piece if sheet is not None else Piece.of(record.segment, record.unit)
        return KeyContext(
            keys={lane.key: lane.id for lane in here},
            names={lane.id: lane.name for lane in here},
            phase=_phase(record, at),
            counts_by=piece.counts_by,
            can_change_time=isinstance(record.segment, Countdown),
            all_in=sheet is not None and sheet.all_in(at) is not None,
        )


def _phase(record: ClassRecord, at: int) -> Phase:
    """What the keys take the class to be doing."""
    phase, sheet = record.phase(at), record.sheet
    if phase == "over" and sheet is not None and _taps_still_count(sheet, at):
        return "late"
    return "over" if phase == "closed" else phase


def _taps_still_count(sheet: Sheet, at: int) -> bool:
    """Whether a bare letter is still a tap though the cap has passed: a thumb is late."""
    scored = sheet.piece.counts_by != "nothing"
    return scored and sheet.ended_by is None and sheet.moment(at).late_by <= GRACE
