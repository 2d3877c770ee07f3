"""The keys of the board that teach: which movement is in focus."""

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.wall.lesson_content import Lesson, lessons

_STEPS = {"<tab>": 1, "<shift+tab>": -1}


class BoardKeys:
    def __init__(self, session: Session) -> None:
        self._session = session
        self._segment = -1
        self._number = 0

    @property
    def lesson(self) -> Lesson | None:
        """The movement that is taught; None: the plan is shown."""
        chosen = self._session.live.record.chosen.segment
        if self._number and chosen == self._segment and self._on_the_board:
            return lessons(self._session.live.record.segment)[self._number - 1]
        return None

    @property
    def _on_the_board(self) -> bool:
        return self._session.live.phase == "board"

    def press(self, sign: str) -> Outcome | None:
        """What came of this sign; None: it isn't one of these keys, or not now."""
        if not self._on_the_board:
            return None
        if sign == "<escape>" and self.lesson is not None and not self._session.desk.pending:
            self._number = 0
            return Outcome()
        if sign not in _STEPS:
            return None
        record = self._session.live.record
        count = len(lessons(record.segment))
        if not count:
            text = "nothing to teach here: write a standard or points at a movement"
            return Outcome(text, refused=True)
        at = self._number if self.lesson is not None else 0
        self._segment = record.chosen.segment
        self._number = (at + _STEPS[sign]) % (count + 1)
        return Outcome()
