"""Tables as CSV, in which no cell can run as a formula in a spreadsheet."""

import csv
import io
from collections.abc import Iterable, Sequence

_FORMULA_STARTS = ("=", "+", "-", "@", "\t", "\r")


def csv_bytes(columns: Sequence[str], rows: Iterable[Sequence[object]]) -> bytes:
    """RFC 4180, as UTF-8; None is an empty cell."""
    text = io.StringIO(newline="")
    writer = csv.writer(text)
    writer.writerow(columns)
    for row in rows:
        writer.writerow([guarded(cell) for cell in row])
    return text.getvalue().encode("utf-8", "replace")


def guarded(cell: object) -> object:
    """The cell, behind an apostrophe where a spreadsheet would take it for a formula."""
    if isinstance(cell, str) and cell.startswith(_FORMULA_STARTS):
        return f"'{cell}"
    return cell


def unguarded(cell: str) -> str:
    """A cell as it was before `guarded`."""
    return cell[1:] if cell.startswith("'") and cell[1:].startswith(_FORMULA_STARTS) else cell
