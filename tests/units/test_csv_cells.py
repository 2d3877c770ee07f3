"""No cell runs as a formula: OWASP, CSV Injection, on how such cells begin (from memory)."""

import csv
import io

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.units.csv_cells import csv_bytes, guarded, unguarded
from classclock.units.printable import escaped

CELLS = st.text(st.characters(exclude_characters="\x00", exclude_categories=["Cs"]))


@pytest.mark.parametrize("start", ["=", "+", "-", "@", "\t", "\r"])
def test_what_would_be_a_formula_stands_behind_an_apostrophe(start: str) -> None:
    assert guarded(f"{start}1+1") == f"'{start}1+1"
    assert unguarded(f"'{start}1+1") == f"{start}1+1"


@pytest.mark.parametrize("cell", ["Noor", "7+12", "'quoted'", "", 7, -3, None])
def test_anything_else_stays_as_it_is(cell: object) -> None:
    assert guarded(cell) == cell


@given(CELLS.filter(lambda cell: not cell.startswith("'")))
def test_a_cell_comes_back_as_it_was(cell: str) -> None:
    assert unguarded(str(guarded(cell))) == cell


@given(st.lists(CELLS, min_size=2, max_size=4))
def test_python_reads_a_table_back_row_by_row(cells: list[str]) -> None:
    # RFC 4180, as Python's own reader understands it.
    read = csv.reader(io.StringIO(csv_bytes(cells, [cells]).decode(), newline=""))
    head, row = list(read)
    shown = [escaped(cell) for cell in cells]
    assert head == shown
    assert [unguarded(cell) for cell in row if not cell.startswith("''")] == [
        cell for cell in shown if not cell.startswith("''")
    ]
