"""Words for a row that may be too narrow for them: shorter ones, or one part after the other."""

import re
from collections.abc import Iterable, Sequence

from rich.cells import cell_len, chop_cells

_CLAUSE = re.compile(r"(?<=[.,:;]) ")
_SCRAP = 4
"""What takes less than a quarter of a row."""


def row_parts(wordings: Sequence[str], room: int) -> tuple[str, ...]:
    """The first wording that fits into so many columns; the last one in parts if none does.

    Parts end where a clause does, as long as that makes them no more, and none a mere scrap.
    """
    for words in wordings:
        if cell_len(words) <= room:
            return (words,)
    by_word = _packed(_words(wordings[-1], room), room)
    clauses = (
        part
        for clause in _CLAUSE.split(wordings[-1])
        for part in ((clause,) if cell_len(clause) <= room else _packed(_words(clause, room), room))
    )
    by_clause = _packed(clauses, room)
    scrap = min(map(cell_len, by_clause), default=0) * _SCRAP < room
    return by_word if scrap or len(by_clause) > len(by_word) else by_clause


def _words(text: str, room: int) -> Iterable[str]:
    return (part for word in text.split() for part in chop_cells(word, room))


def _packed(pieces: Iterable[str], room: int) -> tuple[str, ...]:
    """As few rows as the pieces take in their order, none broken."""
    rows: list[str] = []
    for piece in pieces:
        if rows and cell_len(rows[-1]) + 1 + cell_len(piece) <= room:
            rows[-1] += f" {piece}"
        else:
            rows.append(piece)
    return tuple(rows)
