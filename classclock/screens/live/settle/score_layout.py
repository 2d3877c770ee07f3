"""Scores as parts of a screen: a row for each lane, and what stands beside a score."""

import re
from collections.abc import Iterator, Sequence

from classclock.screens.canvas.layout.parts import Arrangement, Beside, Grid, OneOf, Role, Written
from classclock.wall.score_row import ScoreRow

BEST = "\u25b2"
"""Stands before a new best: none is told by its colour alone."""
MOST_PAGES = 6
"""For one piece: with more nobody waits for their own."""
_ACROSS = (1, 2, 3, 4)


def score_table(rows: Sequence[ScoreRow], *, rank: Role) -> Arrangement:
    """Key, rank, name, score and the score before it; then a sign, and words where they fit.

    In a narrow window a score may stand under its name. `rank` is who has to read the ranks.
    """
    return OneOf(
        (
            *(Grid(_rows(rows, rank), across=_ACROSS, gap=gap, paged=True) for gap in (2, 1)),
            _under_names(rows, rank),
        )
    )


def _rows(rows: Sequence[ScoreRow], rank: Role) -> tuple[tuple[Written, ...], ...]:
    return tuple((*_who(number, row, rank), *_what(number, row)) for number, row in enumerate(rows))


def _under_names(rows: Sequence[ScoreRow], rank: Role) -> Grid:
    return Grid(
        tuple(tuple(_who(number, row, rank)) for number, row in enumerate(rows)),
        under=tuple(Beside(tuple(_what(number, row))) for number, row in enumerate(rows)),
        across=_ACROSS,
        paged=True,
    )


def _who(number: int, row: ScoreRow, rank: Role) -> Iterator[Written]:
    yield Written(("key", number), row.key.upper(), "key", across="middle")
    yield Written(("rank", number), row.rank, "rank", role=rank, across="right")
    yield Written(("name", number), row.name, "name", matters=2)


def _what(number: int, row: ScoreRow) -> Iterator[Written]:
    yield Written(("score", number), row.score, "score", matters=2, across="right")
    yield Written(("last", number), f"({row.last})" if row.last else "", "last")
    yield Written(("sign", number), sign_of(row), "sign", role="coach", breaks=True)
    yield Written(("words", number), words_of(row), "words", role="detail", breaks=True)


def sign_of(row: ScoreRow) -> str:
    """The least that is said of a score: what there is to cheer, and signs for the rest."""
    best = re.split("[:,;]", row.best)[0]
    return " ".join(filter(None, (BEST if row.new_best else "", best, row.signs)))


def words_of(row: ScoreRow) -> str:
    """All that is to be said beside the score."""
    best = f"{BEST} {row.best}" if row.new_best else row.best
    return "; ".join(part for part in (row.asked, best, *row.notes) if part)
