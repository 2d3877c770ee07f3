"""A club's old spreadsheet, with the slips that spreadsheets have."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.old_row import OldRow
from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet
from classclock.plan.findings import Finding
from classclock.units.csv_cells import csv_bytes, guarded, unguarded

TODAY = date(2026, 11, 25)
HEAD = "name,benchmark,score,date\n"


KNOWN = BookKnown({"front squat": "load", "headway": "reps"})


def reading(text: str | bytes, **said: Any) -> SheetReading:
    raw = text if isinstance(text, bytes) else text.encode()
    known = said.pop("known", KNOWN)
    return read_spreadsheet(raw, "old.csv", unit="kg", known=known, today=TODAY, told=Told(**said))


def read(text: str | bytes) -> tuple[tuple[OldRow, ...], tuple[Finding, ...]]:
    done = reading(text)
    return done.rows, done.findings


def test_rows_go_in_whatever_stands_between_the_columns() -> None:
    for sign in ",;\t":
        rows, findings = read(
            "name,benchmark,score,date\nIlse,Turntable,7+12,2024-03-01\n".replace(",", sign)
        )
        assert not findings
        assert (rows[0].name, rows[0].benchmark, rows[0].day) == ("Ilse", "turntable", "2024-03-01")


def test_columns_may_stand_in_any_order_and_others_are_left_out() -> None:
    rows, findings = read(
        "\ufeffDate,Phone,Name,Score,Benchmark,Modification\n2024-03-01,123,Ilse,7+12,Turntable,step-up\n"
    )
    assert not findings
    assert (rows[0].name, rows[0].modification, rows[0].loads) == ("Ilse", "step-up", "?")


@pytest.mark.parametrize(
    ("row", "said"),
    [
        (
            "Ilse,Turntable,seven,2024-03-01",
            '"seven" is no score. Write rounds and odd reps, as in 7+12',
        ),
        ("Ilse,Turntable,7+12,31.2.2024", "as in 2026-03-01"),
        ("Ilse,Turntable,7+12,in March", "as in 2026-03-01"),
        ("?,Turntable,7+12,2024-03-01", "nobody's name"),
        ("Ilse,Turntable,7+12,2031-01-01", "still to come"),
        (",Turntable,7+12,2024-03-01", "no name. Write a name"),
        ("Ilse,Turntable,7+12", "no date. Write a date"),
        ("Ilse,Front squat,7+12,2024-03-01", "write the load, as in 85 kg or 185 lb"),
        ("Il\x1bse,Turntable,7+12,2024-03-01", "can't be shown"),
        ("Ilse,Turntable,0 kg,2024-03-01", "is no score"),
    ],
)
def test_a_bad_row_is_one_finding_with_its_line_and_what_to_write(row: str, said: str) -> None:
    good = "Bram,Turntable,8+0,2024-03-01\n"
    rows, findings = read(f"{HEAD}{good}\n{row}\n{good}")
    assert [one.name for one in rows] == ["Bram", "Bram"]
    (finding,) = findings
    assert finding.line == 4
    assert said in str(finding)


def days_of(*written: str) -> list[str]:
    rows, findings = read(
        HEAD + "".join(f"Ilse,Loop,{n}+1,{day}\n" for n, day in enumerate(written))
    )
    return [row.day for row in rows] + [str(one) for one in findings]


def test_a_day_with_dots_has_the_day_first() -> None:
    assert days_of("1.3.2024", "24. 12. 2024") == ["2024-03-01", "2024-12-24"]


@pytest.mark.parametrize(
    ("told", "day"), [("25/12/2023", "2024-03-01"), ("12/25/2023", "2024-01-03")]
)
def test_one_day_after_the_twelfth_tells_how_all_with_strokes_are_meant(
    told: str, day: str
) -> None:
    assert days_of("01/03/2024", told, "4/4/2024") == [day, "2023-12-25", "2024-04-04"]


def test_a_sheet_with_days_both_ways_round_is_asked_about() -> None:
    *plain, asked = days_of("25/12/2023", "12/25/2023", "01/03/2024")
    assert plain == ["2023-12-25", "2023-12-25"]
    assert "both ways round" in asked


def test_two_kinds_of_score_for_one_benchmark_are_a_finding() -> None:
    _, findings = read(f"{HEAD}Ilse,Loop,7+12,2024-03-01\nBram,Loop,8:31,2024-03-01\n")
    assert "Write rounds and odd reps" in str(findings[0]).replace("write", "Write")


@pytest.mark.parametrize(
    ("raw", "said"),
    [
        (b"", "nothing is in it. Write name,benchmark,score,date"),
        (b"who,what\nIlse,7\n", "Write name,benchmark,score,date as the first line"),
        (b"PK\x03\x04\x00\x00", "Open it, and save the sheet as CSV in UTF-8"),
        (b"name\x00\x00\x01,benchmark,score,date\n", "no text at all"),
        (b'name,benchmark,score,date\n"Ilse,T,7+1,2024-01-01\n', "quotes that don't match"),
    ],
)
def test_a_file_that_is_no_such_table_gets_one_finding(raw: bytes, said: str) -> None:
    rows, findings = read(raw)
    assert not rows
    assert said in str(findings[0])


@given(st.binary(max_size=200))
def test_no_file_makes_it_fail(raw: bytes) -> None:
    for text in (HEAD.encode() + raw, raw):
        rows, findings = read(text)
        assert len(rows) + len(findings) <= raw.count(b"\n") + raw.count(b"\r") + 1


@pytest.mark.parametrize("cell", ["=cmd()", "+1", "-n", "@SUM(A1)", "\t=1", "\r=1"])
def test_no_cell_can_run_as_a_formula(cell: str) -> None:
    # The first signs by which spreadsheets take a cell for a formula: common knowledge of
    # "CSV injection"; RFC 4180 itself says nothing of it.
    assert str(guarded(cell)).startswith("'")
    assert unguarded(str(guarded(cell))) == cell
    # A tab or a line's end is written as its escape, which is none of these signs.
    assert csv_bytes(("a",), [(cell,)]).splitlines()[1].lstrip(b'"').startswith((b"'", b"\\"))


def test_a_table_is_written_as_rfc_4180_has_it() -> None:
    # RFC 4180, section 2: CRLF, quotes round commas and quotes, quotes doubled. A line break
    # within a cell would be allowed; no sign that a terminal obeys is written.
    assert csv_bytes(("a", "b"), [('say "seven"', "1,5"), (None, "x\ny")]) == (
        b'a,b\r\n"say ""seven""","1,5"\r\n,x\\ny\r\n'
    )


def test_a_file_of_far_too_many_rows_is_refused() -> None:
    _, (finding,) = read(HEAD.encode() + b"x\n" * 100_001)
    assert "more than 100,000 rows. Split it" in str(finding)
