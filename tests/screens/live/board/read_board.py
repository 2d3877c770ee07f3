"""A board read part by part, as somebody does who knows that a caution goes on in its next line."""

from collections import defaultdict

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_drawing import body_box, draw_board
from classclock.screens.live.board.board_layout import board_layout
from classclock.wall.board_content import BoardContent


def read_board(content: BoardContent, columns: int, rows: int, look: Look) -> dict[str, str]:
    """What is read in the boxes of each kind, in a terminal without drawn letters."""
    drawn = draw_board(content, columns, rows, look)
    body = body_box(content, columns, rows, look)
    laid = board_layout(content, body.width, body.height, CellMeasure(look.terminal))
    read: defaultdict[str, list[str]] = defaultdict(list)
    for name, spot in laid.spots.items():
        kind = name if isinstance(name, str) else str(name[0])
        read[kind] += read_box(
            drawn, spot.box._replace(x=body.x + spot.box.x, y=body.y + spot.box.y)
        )
    return {kind: " ".join(" ".join(words).split()) for kind, words in read.items()}


def read_box(drawing: Drawing, box: Box) -> list[str]:
    """The rows of a box, of cells that are all one wide."""
    rows = plain_text(drawing).split("\n")[box.y : box.y + box.height]
    return [row[box.x : box.x + box.width] for row in rows]
