"""The board: the plan of the next segment in large type, explained from the wall."""

from classclock.screens.board_ahead import BoardWanted, drawn_ahead
from classclock.screens.board_content import BoardContent
from classclock.screens.board_drawing import draw_board
from classclock.screens.drawing.cells import Drawing, blank
from classclock.screens.painted import Painted


class BoardView(Painted):
    content: BoardContent | None = None

    def show(self, content: BoardContent) -> None:
        if content != self.content:
            self.content = content
            self.repaint()

    def paint(self, columns: int, rows: int) -> Drawing:
        if self.content is None:
            return blank(columns, rows, self.look.theme.ground)
        wanted = BoardWanted(self.content, columns, rows, self.look)
        return drawn_ahead(wanted) or draw_board(self.content, columns, rows, self.look)
