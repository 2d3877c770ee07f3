"""A bar along an axis: blocks with edges placed to an eighth of a cell, ticks where it is empty."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from msgspec import Struct

from classclock.screens.canvas.cells import Drawing, row_of
from classclock.tally.signs import GOAL_MARK, SIGNS
from classclock.wall.blocks import Block
from classclock.wall.colours.theme import Shades, Theme

_EIGHTHS = " ▏▎▍▌▋▊▉"
_TICK = "▏"
_HALF_TICK = "╵"
_HATCH = "\u2571"  # a light diagonal


class Stretch(Struct, frozen=True):
    """A stretch of the bar in eighths of a cell, with its colour."""

    start: int
    end: int
    colour: str
    hatched: bool = False
    doubtful: bool = False


def eighth(value: int, whole: int, columns: int) -> int:
    """Where a value of the axis stands, in whole eighths of a cell, never past the end."""
    return min(columns * 8, max(0, (value * columns * 16 + whole) // (2 * whole)))


def goal_column(value: int | None, whole: int, columns: int) -> int | None:
    """The column of a mark at this value of the axis; None where there is none."""
    return None if value is None else min(columns - 1, eighth(value, whole, columns) // 8)


def pieces(
    columns: int, whole: int, blocks: Sequence[Block], reached: int, shades: Shades
) -> tuple[Stretch, ...]:
    """The blocks one after another and the one in progress; together as long as what is reached.

    `whole`, the blocks' ends and `reached` are in the axis's unit; ends must not fall.
    """
    ends = [0, *(eighth(block.end, whole, columns) for block in blocks)]
    # Shades alternate between those seen, however short one that isn't may have been.
    seen = [
        (start, end, block.kind)
        for (start, end), block in zip(pairwise(ends), blocks, strict=True)
        if end > start
    ]
    done = tuple(
        Stretch(
            start,
            end,
            shades.other if number % 2 else shades.block,
            hatched=kind == "filled in",
            doubtful=kind == "doubtful",
        )
        for number, (start, end, kind) in enumerate(seen)
    )
    now = eighth(reached, whole, columns)
    return (*done, Stretch(ends[-1], now, shades.running)) if now > ends[-1] else done


def ticks(columns: int, whole: int, every: int, least_apart: int = 3) -> tuple[int, ...]:
    """Columns of the marks between the ends; where they would crowd, every second, fifth or so."""
    if every <= 0:
        return ()
    for times in (1, 2, 5, 10, 20, 60):
        step = every * times
        if step * columns >= least_apart * whole:
            return tuple(at * columns // whole for at in range(step, whole, step))
    return ()


@lru_cache(maxsize=512)
def draw_bar(
    columns: int,
    rows: int,
    bar: tuple[Stretch, ...],
    *,
    marks: tuple[int, ...],
    theme: Theme,
    ground: str,
    hatch_ink: str,
    thin: bool = False,
    goal: int | None = None,
) -> Drawing:
    """The bar, its marks in the lowest row of what is still empty, and the line at its end.

    A thin bar is the upper half of one row, its edges on whole cells. `goal` is the column of the
    goal's mark: it cuts through the bar, so that its shape tells it and no colour has to.
    """
    colours: list[str] = [ground] * (columns * 8)
    for piece in bar:
        colours[piece.start : piece.end] = [piece.colour] * (piece.end - piece.start)
    hatched = {
        column
        for piece in bar
        if piece.hatched
        for column in range(-(-piece.start // 8), piece.end // 8)
    }
    cells = [_cell(colours[at : at + 8]) for at in range(0, columns * 8, 8)]
    if thin:
        cells = [_half_cell(colours[at : at + 8], ground) for at in range(0, columns * 8, 8)]
    for column in hatched if not thin else ():
        cells[column] = (_HATCH, hatch_ink, cells[column][2])
    lines = [list(cells) for _ in range(rows)]
    for mark in marks:
        if cells[mark] == (" ", ground, ground):
            lines[-1][mark] = (_TICK, theme.faint, ground)
    for piece in bar:
        if piece.doubtful and piece.end - piece.start >= 8:
            middle = (piece.start + piece.end) // 16
            lines[(rows - 1) // 2][middle] = (SIGNS["fast"].sign, theme.ground, theme.doubtful)
    if thin:
        lines = [
            [(_HALF_TICK if cell[0] == _TICK else cell[0], *cell[1:]) for cell in row]
            for row in lines
        ]
    _mark_goal(lines, goal, theme.ink, ground)
    end = (_HALF_TICK if thin else _TICK, theme.quiet, ground)
    return tuple(row_of([*line, end]) for line in lines)


def _mark_goal(
    lines: list[list[tuple[str, str, str]]], column: int | None, ink: str, ground: str
) -> None:
    """Over everything but a doubt's sign: that asks the coach for something."""
    if column is None:
        return
    for row in lines:
        if row[column][0] != SIGNS["fast"].sign:
            row[column] = (GOAL_MARK, ink, ground)


def _cell(eighths: list[str]) -> tuple[str, str, str]:
    """A cell holds two colours: what it begins with and, from its main edge on, what follows."""
    first = eighths[0]
    edge = next((at for at, colour in enumerate(eighths) if colour != first), 8)
    if edge == 8:
        return " ", first, first
    rest = max(dict.fromkeys(eighths[edge:]), key=eighths[edge:].count)
    return _EIGHTHS[edge], first, rest


def _half_cell(eighths: list[str], ground: str) -> tuple[str, str, str]:
    colour = max(dict.fromkeys(eighths), key=eighths.count)
    return (" ", ground, ground) if colour == ground else ("▀", colour, ground)
