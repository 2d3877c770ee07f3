"""Scores as parts of a screen: a row for each lane, and what stands beside a score."""

import re
from collections.abc import Iterable, Iterator, Sequence

from msgspec import Struct

from classclock.screens.canvas.layout.arrange import Arranged
from classclock.screens.canvas.layout.parts import (
    Arrangement,
    Beside,
    Drawn,
    Grid,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.wall.score_row import ScoreRow

_Cells = tuple[Arrangement, ...]

BEST = "\u25b2"
"""Stands before a new best: none is told by its colour alone."""
MOST_PAGES = 7
"""For one piece: the most people on the wall have letters in the least window on so many, and with
more nobody waits for their own."""
_ACROSS = (1, 2, 3, 4)
_NARROW = 90
"""Columns below which there is no choice: scores may stand under their names, and close to them."""
_KEY_ROWS, _KEY_SHARE = 3, 7
"""A key's letter is so high at most, or has this part of the rows."""
_LARGE_SHARE = 8
"""Letters of this part of the rows are large: seen under 20 minutes of arc from ten metres."""
_MORE = re.compile("([:,;] *|$)")
"""Behind it stands how much, and since when."""


class TableWay(Struct, frozen=True):
    """A way in which a table may stand."""

    apart: bool
    """Each score is beside its name, and well apart."""
    last: Role = "room"
    """Who reads the scores before: the room, or who looks for it."""
    worded: bool = True
    """Whether there are words beside the scores."""


def table_ways(columns: int) -> tuple[TableWay, ...]:
    """The ways to be tried in a window of so many columns, the preferred first."""
    close = TableWay(apart=False)
    return (TableWay(apart=True), close) if columns >= _NARROW else (close,)


def score_table(
    rows: Sequence[ScoreRow],
    box: tuple[int, int],
    *,
    rank: Role,
    way: TableWay,
) -> Arrangement:
    """Key, rank, name, score and the score before it; then a sign, and words where they fit.

    In a window of so many columns and rows. `rank` is who has to read the ranks.
    """
    most = max(_KEY_ROWS, box[1] // _KEY_SHARE)
    each = list(enumerate(rows))
    keys = [(_key(number, row, most),) if row.key else () for number, row in each]
    named = list(zip(keys, each, strict=True))
    who = [(*key, *_who(number, row, rank)) for key, (number, row) in named]
    scores = [_score(number, row) for number, row in each]
    any_last = any(row.last for row in rows)
    lasts = [(_last(number, row, way.last),) if any_last else () for number, row in each]
    said = [
        (*last, *_said(number, row, way)) for last, (number, row) in zip(lasts, each, strict=True)
    ]

    def grid(cells: Iterable[_Cells], under: Iterable[_Cells] = (), gap: int = 2) -> Grid:
        below = tuple(Beside(parts) for parts in under)
        return Grid(tuple(cells), below, across=_ACROSS, gap=gap, paged=True)

    scored = [(*one, score) for one, score in zip(who, scores, strict=True)]
    in_a_row = [(*one, *words) for one, words in zip(scored, said, strict=True)]
    ways = [grid(in_a_row)]
    if not way.apart:
        below = [(score, *words) for score, words in zip(scores, said, strict=True)]
        ways += [grid(in_a_row, gap=1), grid(scored, said), grid(scored, said, gap=1)]
        ways.append(grid(who, below))
        touching = [(*key, *_who(number, row, rank, 0)) for key, (number, row) in named]
        rest = zip(touching, scores, said, strict=True)
        ways.append(grid([(*one, score, *words) for one, score, words in rest], gap=1))
    return OneOf(tuple(ways))


def best_way(laid: Iterable[Arranged], rows: int) -> Arranged:
    """What is readable on the fewest pages, then what is as large or large; the first of equals.

    In a window of so many rows.
    """

    def worth(one: Arranged) -> tuple[bool, int, int]:
        there = [one.sizes[group] for group in ("name", "score") if group in one.sizes]
        least = min(there, default=rows)
        return least <= 1, len(one.pages), -min(least, rows // _LARGE_SHARE)

    return min(laid, key=worth)


def _key(number: int, row: ScoreRow, most: int) -> Written:
    return Written(("key", number), row.key.upper(), "key", across="middle", most=most)


def _who(number: int, row: ScoreRow, rank: Role, after: int = 1) -> Iterator[Arrangement]:
    """With so many columns after the name: where there is one no score touches it."""
    yield Written(("rank", number), row.rank, "rank", role=rank, across="right")
    name = Written(("name", number), row.name, "name", matters=2)
    free = after, after
    yield Beside((name, Drawn(("after", number), "after", free, free, "room")), gap=0)


def _score(number: int, row: ScoreRow) -> Written:
    return Written(("score", number), row.score, "score", matters=2, across="right")


def _last(number: int, row: ScoreRow, role: Role) -> Written:
    return Written(("last", number), f"({row.last})" if row.last else "", "last", role)


def _said(number: int, row: ScoreRow, way: TableWay) -> Iterator[Arrangement]:
    """What there is to say beside the scores."""
    cheer = Written(("cheer", number), cheer_of(row), "cheer", "coach", 1, breaks=True)
    sign = Written(("sign", number), sign_of(row), "sign", "coach", breaks=True)
    yield Stack((cheer, sign), down="middle")
    words = words_of(row) if way.worded else ""
    yield Written(("words", number), words, "words", "detail", breaks=True)


def cheer_of(row: ScoreRow) -> str:
    """What there is to cheer, large where there is room."""
    return f"{BEST} {_best_of(row)}" if row.new_best else ""


def sign_of(row: ScoreRow) -> str:
    """The least else that is said of a score."""
    return " ".join(filter(None, (equal_of(row), row.signs)))


def equal_of(row: ScoreRow) -> str:
    """How it stands beside the best, if it is none."""
    return "" if row.new_best else _best_of(row)


def words_of(row: ScoreRow) -> str:
    """All else that is to be said beside the score."""
    _, _, more = re.split(_MORE, row.best, maxsplit=1)
    return "; ".join(part for part in (row.asked, more, *row.notes) if part)


def _best_of(row: ScoreRow) -> str:
    return re.split(_MORE, row.best, maxsplit=1)[0]
