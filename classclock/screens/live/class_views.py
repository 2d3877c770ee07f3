"""The view for each phase of a class: the board, and from its first start on the others."""

from typing import TYPE_CHECKING

from msgspec.structs import replace
from textual.app import ComposeResult
from textual.widget import Widget
from textual.widgets import ContentSwitcher

from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_view import BoardView
from classclock.screens.live.guide import Guide
from classclock.wall.board_content import BoardContent, board_now
from classclock.wall.seen.class_seen import ClassSeen

if TYPE_CHECKING:
    from classclock.screens.live.coach.coach_beside import CoachSide
    from classclock.screens.live.started_views import StartedViews
    from classclock.wall.coach.coach_values import CoachContent
    from classclock.wall.expected_line import Expectation


class ClassViews(Ground, ContentSwitcher):
    """Those of a class that has been started are there from `load` on; until then the board is."""

    started: "StartedViews"

    def __init__(self, seen: ClassSeen, look: Look, guide: Guide, *, mirrored: bool = True) -> None:
        """`mirrored`: the room sees all that is shown here."""
        super().__init__(initial="board")
        self._seen, self.look, self._guide, self._mirrored = seen, look, guide, mirrored
        self._board = BoardView(look, id="board")
        self._expectation: Expectation | None = None
        self._coach: CoachSide | None = None
        self.for_the_coach = False
        """Whether the coach's own screen is up in their place, once it has been added."""

    def compose(self) -> ComposeResult:
        yield self._board

    @property
    def on_the_board(self) -> bool:
        record = self._seen.live.record
        return record.sheet is None and not record.closed

    async def load(self) -> None:
        """Make what a class that has been started is shown by."""
        from classclock.screens.live.started_views import StartedViews  # noqa: PLC0415  the board comes first

        self.started = StartedViews(self._seen, self.look, self._guide, mirrored=self._mirrored)
        views: tuple[Widget, ...] = self.started.widgets()
        for view in views:
            view.display = False
        await self.mount(*views)

    async def add_coach(self, coach: "CoachSide") -> None:
        """Have the coach's own screen among them."""
        coach.view.display = False
        await self.mount(coach.view)
        self._coach = coach

    def show(self, cue: str) -> None:
        """Show the class as it stands now. `cue` is the word of a cue that has just come.

        Behind the coach's screen the room's views go on: others follow, and pages turn.
        """
        if self.on_the_board:
            content = board_now(self._seen, self._guide.lesson)
            self._board.show(self._expecting(self._on_page(content)))
            current = "board"
        else:
            current = self.started.show(cue=cue)
        if self._coach is not None and self.for_the_coach:
            self._coach.view.show(self._for_coach(self._coach, cue))
            current = "coach"
        self.current = current

    def ready_coach(self) -> None:
        """Work out what the coach's screen would show now, so that it is there at once."""
        if self._coach is not None:
            self._coach.view.ready(self._for_coach(self._coach))

    def _for_coach(self, coach: "CoachSide", cue: str = "") -> "CoachContent":
        if self.on_the_board:
            return coach.before(self._expecting(board_now(self._seen, self._guide.lesson)))
        return coach.started(cue)

    @property
    def board_pages(self) -> int:
        """How many pages the board has."""
        return self._board.pages

    def _on_page(self, content: BoardContent) -> BoardContent:
        """The board with the page that is on, if there are several; else as it is."""
        page = self._guide.board_page().number
        return replace(content, page=page) if self.board_pages > 1 else content

    def _expecting(self, content: BoardContent) -> BoardContent:
        """With what most here would do, once the book has been read."""
        if self._seen.basis is None:
            return content
        if self._expectation is None:
            from classclock.wall.expected_line import Expectation  # noqa: PLC0415  not before the first paint

            self._expectation = Expectation()
        return self._expectation.beside(content, self._seen.live, self._seen.basis)

    def show_digits(self) -> None:
        """Bring the digits of a running clock up to date, and nothing else."""
        if self.current == "wall":
            self.started.show_digits()
        elif self.current == "coach" and self._coach is not None:
            self.started.show_digits(self._coach.view)
