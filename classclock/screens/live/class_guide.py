"""What the coach's keys have put on the screen: a lane, a movement, a page."""

from collections.abc import Callable, Hashable

from classclock.live.session import Session
from classclock.screens.live.board.board_keys import BoardKeys
from classclock.screens.live.page_keys import PageKeys
from classclock.tally.record import Phase
from classclock.wall.lesson_content import Lesson
from classclock.wall.seen.page_turning import PageOn, PageTurns
from classclock.wall.seen.room_values import RoomView


class ClassGuide:
    """A guide, as `guide.py` has it."""

    def __init__(
        self,
        session: Session,
        pages: Callable[[], int],
        page_shown: Callable[[], int],
        board_pages: Callable[[], int],
    ) -> None:
        """`pages` says how many there are of what is shown, `page_shown` which one is seen.

        `board_pages` says how many the board has.
        """
        self._session = session
        self.board_keys = BoardKeys(session, board_pages)
        self.page_keys = PageKeys(session.source, pages, page_shown)
        self.selected: str | None = None
        """The id of the lane that is selected."""

    @property
    def lesson(self) -> Lesson | None:
        return self.board_keys.lesson

    def board_page(self) -> PageOn:
        return self.board_keys.page()

    def page(self, what: Hashable, about: Hashable = None) -> PageOn:
        return self.page_keys.page(what, about)

    def saved(self) -> tuple[str, ...]:
        return tuple(str(path) for path in self._session.on_disk.saved)

    def room_view(self, *, card: bool, sharing: bool) -> RoomView:
        """What the room sees and no event says; what it doesn't see now is left out."""
        phase = self._session.live.phase
        taught = phase == "board" and self.board_keys.lesson is not None
        scored = phase in ("over", "closed")
        return RoomView(
            segment=self.board_keys.segment if taught else -1,
            lesson=self.board_keys.number if taught else 0,
            selected=self._selected_key(),
            turns=self._turns(phase),
            saved=self.saved() if scored else (),
            readings=self._session.readings,
            card=card,
            sharing=sharing,
        )

    def _turns(self, phase: Phase) -> PageTurns:
        if phase == "board":
            return self.board_keys.pages.turns
        return self.page_keys.turns if phase in ("over", "closed") else PageTurns()

    def _selected_key(self) -> str:
        if self.selected is None:
            return ""
        lanes = self._session.live.lineup()
        return next((lane.key for lane in lanes if lane.id == self.selected), "")
