"""The keys of the board: which movement is taught, which page is on."""

from collections.abc import Callable

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.live.page_keys import PageKeys
from classclock.wall.lesson_content import Lesson, lesson_taught, lessons
from classclock.wall.seen.page_turning import PageOn

_STEPS = {"<tab>": 1, "<shift+tab>": -1}
_PAGES = ("<left>", "<right>")


class BoardKeys:
    def __init__(self, session: Session, pages: Callable[[], int]) -> None:
        """`pages` says how many there are now."""
        self._session = session
        self.segment = -1
        """The segment whose movement is taught."""
        self.number = 0
        """Which of its movements that is, from 1; 0: none."""
        self.pages = PageKeys(session.source, pages)

    def page(self) -> PageOn:
        """Which page is on."""
        chosen = self._session.live.record.chosen
        return self.pages.page((chosen.segment, chosen.heat))

    @property
    def lesson(self) -> Lesson | None:
        """The movement that is taught; None: the plan is shown."""
        return lesson_taught(self._session.live, self.segment, self.number)

    @property
    def _on_the_board(self) -> bool:
        return self._session.live.phase == "board"

    def press(self, sign: str) -> Outcome | None:
        """What came of this sign; None: it isn't one of these keys, or not now."""
        if not self._on_the_board:
            return None
        if sign == "<escape>" and self.lesson is not None and not self._session.desk.pending:
            self.number = 0
            return Outcome()
        if sign in _PAGES:
            return self.pages.press(sign)
        if sign not in _STEPS:
            return None
        record = self._session.live.record
        count = len(lessons(record.segment))
        if not count:
            text = "nothing to teach here: write a standard or points at a movement"
            return Outcome(text, refused=True)
        at = self.number if self.lesson is not None else 0
        self.segment = record.chosen.segment
        self.number = (at + _STEPS[sign]) % (count + 1)
        return Outcome()
