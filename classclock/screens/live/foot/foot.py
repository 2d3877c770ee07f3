"""The foot of a class's screen: what is said, the keys that matter now, the time of day."""

from textual.app import ComposeResult
from textual.containers import Horizontal

from classclock.live.session import Session
from classclock.plan.model import is_piece
from classclock.planning.fitting import overruns
from classclock.screens.canvas.look import Look
from classclock.screens.live.foot.foot_row import FootContent, keys_room, words_room
from classclock.screens.live.foot.keys_that_matter import IN_THE_LIST, keys_now
from classclock.screens.live.foot.notice_line import NoticeLine
from classclock.screens.live.foot.time_line import TimeLine
from classclock.screens.live.foot.wordings import row_parts
from classclock.wall.lesson_content import lessons
from classclock.wall.notices.class_notices import ClassNotices
from classclock.wall.notices.notice import Notice
from classclock.wall.time_words import time_left, time_words


class Foot(Horizontal):
    """One row, whatever is said."""

    def __init__(self, session: Session, notices: ClassNotices, look: Look) -> None:
        super().__init__()
        self._session, self._notices = session, notices
        self._line = NoticeLine(look)
        self._time = TimeLine(look)
        self.people_listed = False
        """Whether the list of who is here has the keys."""

    def compose(self) -> ComposeResult:
        yield self._line
        yield self._time

    def show(self) -> None:
        """Show how things stand."""
        session = self._session
        self._time.show(time_words(session.source.wall(), session.live.record.ends))
        columns, keys = self.app.size.width - self._time.columns, self._keys()

        def parts(notice: Notice, count: str, again: bool) -> tuple[str, ...]:  # noqa: FBT001  as it is asked
            wordings, room = (notice.text, *notice.shorter), words_room(columns, count)
            if again:
                beside = row_parts(wordings, max(1, room - keys_room(keys, columns)))
                if len(beside) == 1:
                    return beside
            return row_parts(wordings, room)

        self._line.show(FootContent(self._notices.shown(parts), keys))

    def _keys(self) -> tuple[str, ...]:
        if self.people_listed:
            return IN_THE_LIST
        record, now = self._session.live.record, self._session.live.clock.now()
        sheet = record.sheet
        phase, left = record.phase(now), time_left(self._session.source.wall(), record.ends)
        return keys_now(
            phase,
            scored=is_piece(record.segment),
            countdown=record.segment.about.minutes_can_change,
            all_in=sheet is not None and sheet.all_in(now) is not None,
            teaches=bool(lessons(record.segment)),
            overruns=phase == "board" and overruns(record, left),
        )
