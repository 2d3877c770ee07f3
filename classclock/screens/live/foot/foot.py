"""The foot of a class's screen: standing troubles, what was said last, the keys, the time."""

from textual.app import ComposeResult
from textual.containers import Horizontal, Vertical

from classclock.live.session import Session
from classclock.plan.model import is_piece
from classclock.screens.canvas.least_size import LEAST_ROWS
from classclock.screens.canvas.look import Look
from classclock.screens.live.foot.status_content import StatusContent, keys_now
from classclock.screens.live.foot.status_line import StatusLine
from classclock.screens.live.foot.time_line import TimeLine
from classclock.screens.live.foot.trouble_line import TroubleLine
from classclock.wall.lesson_content import lessons
from classclock.wall.time_words import time_words

_STAYS = 8_000
"""Milliseconds of real time: longer than that no message takes more than one row."""


class Foot(Vertical):
    def __init__(self, session: Session, look: Look) -> None:
        super().__init__()
        self._session = session
        self._said, self._said_at = "", 0
        self._troubles = TroubleLine(look)
        self._status = StatusLine(look)
        self._time = TimeLine(look)

    def compose(self) -> ComposeResult:
        yield self._troubles
        with Horizontal():
            yield self._status
            yield self._time

    def say(self, text: str, real: int) -> None:
        """What was said last, at this moment of real time (ms)."""
        self._said, self._said_at = text, real

    def show(self, troubles: tuple[str, ...], real: int) -> int:
        """Show how things stand; the rows that it takes for itself."""
        session = self._session
        room = self.app.size.height - 1 - LEAST_ROWS
        beside = troubles[: max(0, room)]
        hidden = troubles[len(beside) :]
        said, fresh = self._said, real - self._said_at < _STAYS
        alarm = bool(hidden) and not (said and fresh)
        content = StatusContent(hidden[0] if alarm else said, self._keys(), alarm)
        self._troubles.show(beside)
        self._status.show(content, short=not fresh)
        self._time.show(time_words(session.source.wall(), session.live.record.ends))
        return 1 + len(beside)

    def _keys(self) -> tuple[str, ...]:
        record, now = self._session.live.record, self._session.live.clock.now()
        sheet = record.sheet
        return keys_now(
            record.phase(now),
            scored=is_piece(record.segment),
            countdown=record.segment.about.minutes_can_change,
            all_in=sheet is not None and sheet.all_in(now) is not None,
            teaches=bool(lessons(record.segment)),
        )
