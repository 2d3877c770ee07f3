"""Scores as a table of large rows: key, rank, name, score, and what is to be said beside them."""

from collections.abc import Sequence
from textwrap import wrap

from msgspec.structs import replace
from rich.cells import cell_len

from classclock.screens.canvas.cells import Drawing, above, beside, width
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look, cut
from classclock.screens.live.settle.score_layout import (
    BETWEEN,
    GAP,
    LEAST_WORDS,
    RowLayout,
    TableLayout,
    arrange,
)
from classclock.wall.score_row import ScoreRow

_BEST = "\u25b2 "
"""Stands before a new best: none is told by its colour alone."""


def draw_scores(rows: Sequence[ScoreRow], columns: int, height: int, look: Look) -> Drawing:
    """The rows in a box of this size; where not all fit, the last line says how many are left."""
    if not rows or height < 1:
        return look.gap(columns, max(0, height))
    table = arrange(rows, columns, height, look)
    if table.shown < len(rows):
        kept = table.across * (height - 1)
        more = f"and {len(rows) - kept} more, in the results"
        last = look.text(more, columns, ink=look.theme.quiet)
        return above(draw_scores(rows[:kept], columns, height - 1, look), last)
    each = (columns - BETWEEN * (table.across - 1)) // table.across
    down = -(-len(rows) // table.across)
    stacks = [
        look.box(
            above(*(_row(row, table, each, look) for row in rows[first : first + down])),
            each,
            height,
        )
        for first in range(0, len(rows), down)
    ]
    gap = look.gap(BETWEEN, height)
    together = beside(stacks[0], *(part for stack in stacks[1:] for part in (gap, stack)))
    return look.box(together, columns, height)


def _row(row: ScoreRow, table: TableLayout, columns: int, look: Look) -> Drawing:
    parts, rows = table.parts, table.parts.type_rows
    here = look.on(look.theme.bar) if row.selected else look
    gap = here.gap(parts.gap, rows)
    drawn = [
        above(*[here.text("▌" if row.selected else "", 1)] * rows),
        _key(row.key, parts, here),
        gap if parts.rank else here.gap(0, rows),
        _rank(row.rank, parts, here),
        gap,
        _large(row.name, parts.name, rows, here),
        gap,
        _large(row.score, parts.score, rows, here, right=True),
    ]
    if parts.aside:
        drawn += [gap, _aside(row, parts.aside, rows, here)]
    return look.box(here.box(beside(*drawn), columns, rows), columns, table.pitch)


def _key(key: str, parts: RowLayout, look: Look) -> Drawing:
    theme, rows = look.theme, parts.type_rows
    if not (key and parts.key):
        return look.gap(parts.key, rows)
    if rows == 1:
        cap = f" {key.upper()} "
        drawn = look.text(cap, 3, ink=theme.key_ink, ground=theme.key_ground, bold=True)
        return look.box(drawn, parts.key, 1)
    return _large(key.upper(), parts.key, rows, look, ink=theme.key)


def _rank(rank: str, parts: RowLayout, look: Look) -> Drawing:
    quiet, rows = look.theme.quiet, parts.type_rows
    if parts.gap == GAP:
        return _large(rank, parts.rank, rows, look, ink=quiet, right=True)
    text = look.text(rank.rjust(parts.rank), parts.rank, ink=quiet)
    return look.box(text, parts.rank, rows, down="middle")


def _large(
    text: str, columns: int, rows: int, look: Look, *, ink: str | None = None, right: bool = False
) -> Drawing:
    if not columns:
        return look.gap(0, rows)
    air = rows - 3 if rows > 3 else 0
    drawn = look.letters(text, columns, rows, ink=ink, air=air)
    return look.box(drawn, columns, rows, across="right" if right else "left", down="middle")


def _aside(row: ScoreRow, columns: int, rows: int, look: Look) -> Drawing:
    """What is asked, large where there is room, and the other words in lines of terminal text."""
    if columns < LEAST_WORDS:
        return look.box(_sign(row, columns, look), columns, rows, down="middle")
    if rows == 1:
        return _in_one_line(row, columns, look)
    if not row.asked or lettering_width(row.asked, rows, look.terminal) > columns:
        return _lines(_words(row), columns, rows, look)
    large = look.letters(row.asked, columns, rows, ink=look.theme.doubtful)
    left = columns - width(large) - GAP
    if not row.notes:
        return look.box(large, columns, rows, down="middle")
    if left >= 2 * LEAST_WORDS:
        drawn = look.box(large, width(large), rows, down="middle")
        words = _words(replace(row, asked=""))
        return beside(drawn, look.gap(GAP, rows), _lines(words, left, rows, look))
    return _lines(_words(row), columns, rows, look)


_Words = tuple[str, str, bool]
"""Words, the name of their ink, and whether they are bold."""


def _words(row: ScoreRow) -> list[_Words]:
    best = [(f"{_BEST}{row.best}" if row.best_hue == "ahead" else row.best, row.best_hue, True)]
    asked = [(row.asked, "doubtful", True)]
    notes = [(note, "doubtful", False) for note in row.notes]
    return [*(asked if row.asked else ()), *(best if row.best else ()), *notes]


def _ink(name: str, look: Look) -> str:
    theme = look.theme
    inks = {
        "doubtful": theme.doubtful,
        "ahead": theme.ahead.text,
        "level": theme.level.text,
        "first": theme.first.text,
    }
    return inks[name]


def _sign(row: ScoreRow, columns: int, look: Look) -> Drawing:
    """In place of words, where there is no room for any."""
    if row.signs:
        return look.text(row.signs[:columns], columns, ink=look.theme.doubtful, bold=True)
    sign = _BEST.strip() if row.best_hue == "ahead" and row.best else ""
    return look.text(sign, columns, ink=look.theme.ahead.text, bold=True)


def _in_one_line(row: ScoreRow, columns: int, look: Look) -> Drawing:
    drawn: list[Drawing] = []
    left = columns
    for text, ink, bold in _words(row):
        part = cut(text if not drawn else f"; {text}", left)
        taken = cell_len(part)
        if taken:
            drawn.append(look.text(part, taken, ink=_ink(ink, look), bold=bold))
        left -= taken
    return beside(*drawn, look.gap(left)) if left else beside(*drawn)


def _lines(words: Sequence[_Words], columns: int, rows: int, look: Look) -> Drawing:
    lines = [
        look.text(part, columns, ink=_ink(ink, look), bold=bold)
        for text, ink, bold in words
        for part in wrap(text, columns)
    ]
    return look.box(above(*lines[:rows]), columns, rows, down="middle")
