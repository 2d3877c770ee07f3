"""The board as a drawing: the plan, who is in it, what to look out for."""

import re
from collections.abc import Collection, Iterator
from functools import partial

from classclock.screens.canvas.arranged_drawing import Drawer, Ink, draw_arranged, draw_spot
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, above, beside, lay_out, place
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots
from classclock.screens.canvas.layout.parts import Name
from classclock.screens.canvas.look import Look
from classclock.screens.live.board.board_layout import TIE, board_layout
from classclock.screens.live.board.caution_layout import caution_ink
from classclock.wall.board_content import BoardContent

_WIDE = 100
"""Columns from which there is a margin at both sides."""
_MARGIN = 2
_ROOMY = 40
"""Rows from which one is free under the first row, and one over the foot."""


def draw_board(content: BoardContent, columns: int, rows: int, look: Look) -> Drawing:
    """The board in a box of this size. Its cautions are never left out."""
    if content.lesson is not None:
        from classclock.screens.live.board.lesson_drawing import draw_lesson  # noqa: PLC0415  only if asked

        return draw_lesson(content.lesson, columns, rows, look)
    box = body_box(content, columns, rows, look)
    where = content.place
    if content.lift is not None and content.lift.lanes:
        from classclock.screens.live.board.lift_board_drawing import draw_lift_body  # noqa: PLC0415  lifts only

        body = draw_lift_body(content, content.lift, box.width, box.height, look)
    else:
        pages = board_layout(content, box.width, box.height, CellMeasure(look.terminal)).pages
        number = content.page % len(pages)
        body = _draw_body(pages[number], content, box, look)
        where += f", page {number + 1} of {len(pages)}" if len(pages) > 1 else ""
    gap = look.gap(box.width, box.y - 1)
    top = _top(content.title, where, box.width, look)
    board = above(top, gap, body, gap, _foot(content, box.width, look))
    return place(board, columns, rows, look.theme.ground, across="middle")


def board_pages(content: BoardContent, columns: int, rows: int, look: Look) -> int:
    """How many pages it takes in a box of this size."""
    if content.lesson is not None:
        return 1
    box, measure = body_box(content, columns, rows, look), CellMeasure(look.terminal)
    if content.lift is not None and content.lift.lanes:
        from classclock.screens.live.board.lift_layout import lift_layout  # noqa: PLC0415  lifts only

        return len(lift_layout(content, content.lift, box.width, box.height, measure).pages)
    return len(board_layout(content, box.width, box.height, measure).pages)


def _draw_body(spots: Spots, content: BoardContent, box: Box, look: Look) -> Drawing:
    inks, drawers = dict(_inks(spots, look)), dict(_people_drawers(spots, content, look))
    return draw_arranged(spots, box.width, box.height, look, inks=inks, drawers=drawers)


def body_box(content: BoardContent, columns: int, rows: int, look: Look) -> Box:
    """What is between the first row and the foot, which are the coach's."""
    inner = columns - 2 * _MARGIN if columns >= _WIDE else columns - 2
    foot = len(_foot(content, inner, look))
    spare = 1 if rows >= _ROOMY else 0
    return Box((columns - inner) // 2, 1 + spare, inner, rows - 1 - foot - 2 * spare)


def _top(title: str, where: str, columns: int, look: Look) -> Drawing:
    theme = look.theme
    right = min(len(where), columns)
    left = look.text(title, columns - right, ink=theme.quiet)
    return beside(left, look.text(where, right, ink=theme.quiet))


def _foot(content: BoardContent, columns: int, look: Look) -> Drawing:
    """What comes next and how the time stands; what is short."""
    theme = look.theme
    words = f"{content.next}    {content.left}"
    lines = [words] if len(words) <= columns else [content.next, content.left]
    drawn = [look.text(text, columns, bold=True) for text in lines]
    if content.equipment:
        drawn.insert(0, look.text(content.equipment, columns, ink=theme.doubtful, bold=True))
    return above(*drawn)


def _inks(spots: Spots, look: Look) -> Iterator[tuple[Name, Ink]]:
    theme = look.theme
    quiet = Ink(theme.quiet)
    of = {
        "name": Ink(bold=True),
        "head": Ink(bold=True),
        "work": Ink(bold=True),
        "line": Ink(bold=True),
        "person": Ink(bold=True),
        "start": Ink(bold=True),
        "key": Ink(theme.key, bold=True),
        "stop": caution_ink(look),
        "caution": caution_ink(look),
        "terms": quiet,
        "expected": quiet,
        "options": quiet,
        "note": quiet,
        "does": quiet,
    }
    for name in spots:
        kind = name if isinstance(name, str) else str(name[0])
        if kind in of:
            yield name, of[kind]


def _people_drawers(
    spots: Spots, content: BoardContent, look: Look
) -> Iterator[tuple[Name, Drawer]]:
    """For people who stand one after the other: keys have a colour of their own."""
    keys = {lane.key for lane in content.lanes}
    for name, spot in spots.items():
        if isinstance(name, tuple) and name[0] == "people":
            yield name, partial(_draw_people, spot, keys, look)


def _draw_people(spot: Spot, keys: Collection[str], look: Look, columns: int, rows: int) -> Drawing:
    lines = [_draw_line(line, columns, spot.size, keys, look) for line in spot.lines]
    return look.box(above(*lines), columns, rows)


def _draw_line(line: str, columns: int, rows: int, keys: Collection[str], look: Look) -> Drawing:
    """Each piece where it would stand in the whole line."""
    measure, theme = CellMeasure(look.terminal), look.theme
    pieces: list[tuple[int, int, Drawing]] = []
    before = ""
    for piece in re.findall(rf"[^{TIE} ]+[{TIE} ]*", line):
        words = piece.rstrip(f"{TIE} ")
        x, wide = measure.columns(before, rows) if before else 0, measure.columns(words, rows)
        new = not before or before.endswith(f"{TIE} ")  # a name after another, not its second word
        ink = theme.key if new and words in keys else theme.ink
        drawn = draw_spot(Spot(Box(0, 0, wide, rows), rows, (words,)), look, Ink(ink, bold=True))
        pieces.append((x, 0, drawn))
        before += piece
    return lay_out(pieces, columns, rows, theme.ground)
