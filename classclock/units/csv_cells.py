"""Tables as CSV: no cell runs as a formula in a spreadsheet, or steers a terminal."""

import csv
import io
from collections.abc import Iterable, Sequence

from classclock.units.printable import escaped

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """RFC 4180, as UTF-8; None is an empty cell, and what can't be shown an escape."""
    return csv_heading(columns) + csv_rows(rows)


def csv_heading(columns: Sequence[str]) -> bytes:
    """The first line of a table that is written bit by bit."""
    return _csv([map(escaped, columns)])


def csv_rows(rows: Iterable[Sequence[object]]) -> bytes:
    """Some more of its rows."""
    return _csv(map(_shown, row) for row in rows)


def _csv(rows: Iterable[Iterable[object]]) -> bytes:
    text = io.StringIO(newline="")
    csv.writer(text).writerows(rows)
    return text.getvalue().encode()


def _shown(cell: object) -> object:
    return guarded(escaped(cell)) if isinstance(cell, str) else cell


def guarded(cell: object) -> object:
    """The cell, behind an apostrophe where a spreadsheet would take it for a formula."""
    if isinstance(cell, str) and cell.startswith(_FORMULA_STARTS):
        return f"'{cell}"
    return cell


def unguarded(cell: str) -> str:
    """A cell as it was before `guarded`."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(_FORMULA_STARTS) else cell
