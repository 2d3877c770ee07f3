"""The view for each phase of a class: the board, and from its first start on the others."""

from typing import TYPE_CHECKING

from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import ContentSwitcher

from classclock.live.session import Session
from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_keys import BoardKeys
from classclock.screens.live.board.board_view import BoardView
from classclock.wall.board_content import BoardContent, board_now

if TYPE_CHECKING:
    from classclock.screens.live.started_views import StartedViews
    from classclock.wall.expected_line import Expectation


class ClassViews(Ground, ContentSwitcher):
    """Those of a class that has been started are there from `load` on; until then the board is."""

    started: "StartedViews"

    def __init__(self, session: Session, look: Look) -> None:
        super().__init__(initial="board")
        self._session, self.look = session, look
        self._board = BoardView(look, id="board")
        self.board_keys = BoardKeys(session)
        self.selected: str | None = None
        """The id of the lane that is selected."""
        self._expectation: Expectation | None = None

    def compose(self) -> ComposeResult:
        yield self._board

    @property
    def on_the_board(self) -> bool:
        record = self._session.live.record
        return record.sheet is None and not record.closed

    async def load(self) -> None:
        """Make what a class that has been started is shown by."""
        from classclock.screens.live.started_views import StartedViews  # noqa: PLC0415  the board comes first

        self.started = StartedViews(self._session, self.look)
        views: tuple[Widget, ...] = self.started.widgets()
        for view in views:
            view.display = False
        await self.mount(*views)

    def show(self, cue: str) -> None:
        """Show the class as it stands now. `cue` is the word of a cue that has just come."""
        if self.on_the_board:
            content = self.board_keys.on_page(board_now(self._session, self.board_keys.lesson))
            self._board.show(self._expecting(content))
            self.current = "board"
        else:
            self.current = self.started.show(selected=self.selected, cue=cue)

    def _expecting(self, content: BoardContent) -> BoardContent:
        """With what most here would do, once the book has been read."""
        if self._session.basis is None:
            return content
        if self._expectation is None:
            from classclock.wall.expected_line import Expectation  # noqa: PLC0415  not before the first paint

            self._expectation = Expectation()
        return self._expectation.beside(content, self._session.live, self._session.basis)

    def show_digits(self) -> None:
        """Bring the digits of a running clock up to date, and nothing else."""
        if self.current == "wall":
            self.started.show_digits()
