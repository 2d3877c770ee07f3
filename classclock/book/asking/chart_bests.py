"""Bests as a chart wants them: of a lift the heaviest set of each number of reps is one too."""

from collections.abc import Collection, Sequence

from sqlalchemy import Connection

from classclock.book.tables.lifted import heaviest_sets
from classclock.book.tables.queries import Best, best_rows, last_used_first
from classclock.records.bests import best_of
from classclock.records.result import Result


def chart_bests(
    connection: Connection, of: Collection[str] | None = None
) -> dict[tuple[str, str], tuple[Best, ...]]:
    """By athlete's id and benchmark, the terms used last first; of some, or everybody.

    A class's score in a lift is its heaviest set alone; a lighter one of more reps may say more.
    """
    sets = heaviest_sets(connection, of)
    rows = best_rows(connection, of)
    return {
        key: _with_sets(bests, sets[key]) if key in sets else bests for key, bests in rows.items()
    }


def _with_sets(bests: Sequence[Best], sets: Sequence[Result]) -> tuple[Best, ...]:
    by_terms = {best.result.terms.key: best for best in bests}
    for made in sets:
        known = by_terms.get(made.terms.key)
        if known is None:
            by_terms[made.terms.key] = Best(made, 1, made.moment)
        elif best_of((known.result, made)) is made:
            by_terms[made.terms.key] = Best(made, known.times, known.last_moment)
    return tuple(sorted(by_terms.values(), key=last_used_first))
