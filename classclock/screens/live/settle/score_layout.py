"""How scores stand in a table: the largest letters in which all of them fit."""

from collections.abc import Sequence

from msgspec import Struct
from rich.cells import cell_len

from classclock.screens.canvas.cells import width
from classclock.screens.canvas.look import Look
from classclock.wall.score_row import ScoreRow

BETWEEN = 4
"""Cells between two columns of rows."""
GAP = 2
LEAST_WORDS = 10
"""Cells below which words beside a score are no more than a sign."""
_MOST_COLUMNS = 4
_LEAST_COLUMN = 26
_LEAST_ASIDE = 14
_MOST_ROWS = 9


class RowLayout(Struct, frozen=True):
    """The height of the type and the widths of the parts, in cells."""

    type_rows: int
    key: int
    rank: int
    name: int
    score: int
    aside: int
    gap: int = GAP


class TableLayout(Struct, frozen=True):
    across: int
    pitch: int
    """Rows from one line of scores to the next."""
    parts: RowLayout
    shown: int
    """How many rows there is room for."""


def type_rows(rows: Sequence[ScoreRow], columns: int, height: int, look: Look) -> int:
    """How high the letters come out in a box of this size; 0 where not all rows fit."""
    if not rows:
        return _MOST_ROWS
    table = arrange(rows, columns, height, look)
    return table.parts.type_rows if table.shown >= len(rows) else 0


def arrange(rows: Sequence[ScoreRow], columns: int, height: int, look: Look) -> TableLayout:
    """The number of columns that gives the largest letters; then words beside them, then air."""
    tables = [
        _table(rows, columns, height, across, look)
        for across in range(1, _MOST_COLUMNS + 1)
        if across == 1 or (columns - BETWEEN * (across - 1)) // across >= _LEAST_COLUMN
    ]
    return max(
        tables,
        key=lambda table: (
            table.shown,
            table.parts.type_rows,
            table.parts.aside >= LEAST_WORDS,
            table.pitch,
            -table.across,
        ),
    )


def _table(
    rows: Sequence[ScoreRow], columns: int, height: int, across: int, look: Look
) -> TableLayout:
    each = (columns - BETWEEN * (across - 1)) // across
    down = -(-len(rows) // across)
    pitch = max(1, height // down)
    parts = _fit(rows, each, pitch, look)
    return TableLayout(
        across, min(pitch, 2 * parts.type_rows), parts, min(len(rows), across * height)
    )


def _fit(rows: Sequence[ScoreRow], columns: int, pitch: int, look: Look) -> RowLayout:
    """The largest type in which every score stands whole and names have fair room."""
    high = min(_MOST_ROWS, pitch if pitch <= 3 else pitch - 1)
    for high_type in range(high, 0, -1):
        if high_type == 2:
            continue  # no letters are two rows high
        parts = _columns(rows, columns, high_type, look)
        if parts is None and high_type == 3:
            parts = _tight(rows, columns, look)
        if parts is not None:
            return parts
    scores = max(cell_len(row.score) for row in rows)
    return RowLayout(1, 4, 0, max(1, columns - 9 - scores), scores, 0)


def _columns(rows: Sequence[ScoreRow], columns: int, high: int, look: Look) -> RowLayout | None:
    def widest(texts: list[str]) -> int:
        return max((_width(text, high, look) for text in texts if text), default=0)

    key = 0
    if any(row.key for row in rows):
        key = {1: 3, 3: 6}.get(high, 2 * high) + 1
    rank = widest([row.rank for row in rows])
    score = widest([row.score for row in rows])
    natural = widest([row.name for row in rows])
    aside = _LEAST_ASIDE if any(row.has_words for row in rows) else 0
    fixed = 1 + key + rank + score + GAP * (4 if aside else 3)
    fair = min(natural, {1: 8, 3: 25}.get(high, 6 * high))
    if high == 1:
        aside = max(0, min(aside, columns - fixed - fair))
    spare = columns - fixed - aside - fair
    if spare < 0:
        return None
    name = fair + min(spare, natural - fair)
    left = columns - fixed - name if aside else 0
    return RowLayout(high, key, rank, name, score, left)


def _tight(rows: Sequence[ScoreRow], columns: int, look: Look) -> RowLayout | None:
    """Dot letters for key, name and score alone: the rank in terminal text, a sign for words."""
    key = 5 if any(row.key for row in rows) else 0
    rank = max((cell_len(row.rank) for row in rows), default=0)
    score = max(_width(row.score, 3, look) for row in rows)
    names = max(_width(row.name, 3, look) for row in rows)
    name = columns - 1 - key - rank - score - 1 - 4
    if name < min(names, 25):
        return None
    return RowLayout(3, key, rank, min(name, names), score, 1, gap=1)


def _width(text: str, high: int, look: Look) -> int:
    return width(look.letters(text, 999, high))
