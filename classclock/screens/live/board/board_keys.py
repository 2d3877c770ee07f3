"""The keys of the board: which movement is taught, which page of a lift is on."""

from msgspec.structs import replace

from classclock.live.live_class import Outcome
from classclock.live.session import Session
from classclock.screens.live.page_keys import PageKeys
from classclock.wall.board_content import BoardContent
from classclock.wall.lesson_content import Lesson, lessons

_STEPS = {"<tab>": 1, "<shift+tab>": -1}
_PAGES = ("<left>", "<right>")
_ON_ONE_PAGE = 3
"""Lanes of a lift that never need another page."""


class BoardKeys:
    def __init__(self, session: Session) -> None:
        self._session = session
        self._segment = -1
        self._number = 0
        self._pages = PageKeys(session.source, lambda: self._lanes() - _ON_ONE_PAGE + 1)

    def on_page(self, content: BoardContent) -> BoardContent:
        """The board of a lift with the page that is on; another as it is."""
        if content.lift is None:
            return content
        chosen = self._session.live.record.chosen
        page = self._pages.page((chosen.segment, chosen.heat)).number
        return replace(content, lift=replace(content.lift, page=page))

    def _lanes(self) -> int:
        lift = self._session.live.record.segment.lift is not None
        return len(self._session.live.lineup()) if lift else 0

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
        if sign in _PAGES:
            return self._pages.press(sign)
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
