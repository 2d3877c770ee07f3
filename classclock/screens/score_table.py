"""Scores as a table of large rows: key, rank, name, score, and what is to be said beside them."""

from collections.abc import Sequence
from textwrap import wrap

from classclock.screens.drawing.cells import Drawing, above, beside, width
from classclock.screens.look import Look
from classclock.screens.score_layout import (
    BETWEEN,
    GAP,
    LEAST_WORDS,
    RowLayout,
    ScoreRow,
    TableLayout,
    arrange,
)


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
    """What is asked, large where there is room, and notes in lines of terminal text."""
    ink = look.theme.doubtful
    words = [row.asked, *row.notes] if row.asked else [*row.notes]
    if columns < LEAST_WORDS:
        sign = look.text("?" if words else "", columns, ink=ink, bold=True)
        return look.box(sign, columns, rows, down="middle")
    if rows == 1:
        return look.text("; ".join(words), columns, ink=ink, bold=bool(row.asked))
    large = look.letters(row.asked, columns, rows, ink=ink)
    left = columns - width(large) - GAP
    if row.asked and not row.notes:
        return look.box(large, columns, rows, down="middle")
    if row.asked and left >= 2 * LEAST_WORDS:
        drawn = look.box(large, width(large), rows, down="middle")
        return beside(drawn, look.gap(GAP, rows), _notes(row.notes, left, rows, look))
    return _notes(words, columns, rows, look)


def _notes(notes: Sequence[str], columns: int, rows: int, look: Look) -> Drawing:
    lines = [part for note in notes for part in wrap(note, columns)][:rows]
    drawn = [look.text(text, columns, ink=look.theme.doubtful) for text in lines]
    return look.box(above(*drawn), columns, rows, down="middle")
