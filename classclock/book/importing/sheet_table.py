"""A sheet as rows of text, whatever kind of file it came in."""

from msgspec import Struct

MOST_ROWS = 100_000
"""Of one sheet: more is no club's notebook."""


class SheetRow(Struct, frozen=True):
    line: int
    """Its line in the file, or its row in the sheet, from 1."""
    cells: tuple[str, ...]


class SheetTable(Struct, frozen=True):
    rows: tuple[SheetRow, ...]
    kind: str
    """What it was taken for: `text in UTF-8, with ; between the columns`."""
    broken: int = 0
    """The line from which on it can't be read; 0 where all of it can."""

    def place(self, line: int) -> str:
        """Where a row stands, in words."""
        return f"line {line}"


class UnreadableSheetError(Exception):
    """It is no sheet; what is wrong, and what to do instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


def too_many_rows() -> UnreadableSheetError:
    return UnreadableSheetError(f"more than {MOST_ROWS:,} rows", "Split it into several files")
