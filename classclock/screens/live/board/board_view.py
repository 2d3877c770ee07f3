"""The board: the plan of the next segment in large type, explained from the wall."""

from classclock.screens.canvas.cells import Drawing, blank
from classclock.screens.canvas.painted import Painted
from classclock.screens.live.board.board_drawing import board_pages, draw_board
from classclock.wall.board_content import BoardContent


class BoardView(Painted):
    content: BoardContent | None = None

    def show(self, content: BoardContent) -> None:
        if content != self.content:
            self.content = content
            self.repaint()

    @property
    def pages(self) -> int:
        """How many there are at this size."""
        if self.content is None or not all(self.box):
            return 1
        return board_pages(self.content, *self.box, self.look)

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.content is None:
            return blank(columns, rows, self.look.theme.ground)
        return draw_board(self.content, columns, rows, self.look)
