"""The coach's own screen beside the room's views: its content at each moment, to its view."""

from classclock.live.session import Session
from classclock.screens.canvas.look import Look
from classclock.screens.live.coach.coach_view import CoachView
from classclock.screens.live.coach.noted_so_far import NotedSoFar
from classclock.screens.live.guide import Guide
from classclock.wall.board_content import BoardContent
from classclock.wall.coach.coach_content import CoachContents
from classclock.wall.coach.coach_values import CoachContent
from classclock.wall.seen.started_content import StartedContent


class CoachSide:
    def __init__(self, session: Session, look: Look, guide: Guide, started: StartedContent) -> None:
        """`started` is what the room's views show of it."""
        self.view = CoachView(look, id="coach")
        self._contents, self._noted = CoachContents(session, started), NotedSoFar(session)
        self._guide = guide

    def before(self, board: BoardContent) -> CoachContent:
        """Before the start of what this board shows the room."""
        return self._contents.before(board, self._noted.notes())

    def started(self, cue: str) -> CoachContent:
        """Of a class that has been started; `cue` is the word of a cue that has just come."""
        guide = self._guide
        return self._contents.started(
            selected=guide.selected, cue=cue, notes=self._noted.notes(), saved=guide.saved()
        )
