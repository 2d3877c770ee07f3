"""A club's old spreadsheet, with the slips that spreadsheets have."""

from datetime import date
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.old_scores import read_old_score
from classclock.book.importing.spreadsheet import OldRow, read_spreadsheet
from classclock.plan.findings import Finding
from classclock.records.result import finish_worth, load_worth, rounds_worth
from classclock.units.csv_cells import csv_bytes, guarded, unguarded

TODAY = date(2026, 11, 25)
HEAD = "name,benchmark,score,date\n"


def read(text: str | bytes) -> tuple[tuple[OldRow, ...], tuple[Finding, ...]]:
    raw = text if isinstance(text, bytes) else text.encode()
    return read_spreadsheet(
        raw, "old.csv", unit="kg", kinds={"front squat": "load", "headway": "reps"}, today=TODAY
    )


@pytest.mark.parametrize(
    ("written", "kind", "score", "worth"),
    [
        ("7+12", "rounds", "7+12", rounds_worth(7, 12)),
        ("7 + 12", "rounds", "7+12", rounds_worth(7, 12)),
        ("7 rounds", "rounds", "7+0", rounds_worth(7, 0)),
        ("8:31", "time", "8:31", finish_worth(511)),
        # Up to the next whole second, as World Athletics has it for times by hand.
        ("8:31.2", "time", "8:32", finish_worth(512)),
        ("1:02:03", "time", "1:02:03", finish_worth(3723)),
        ("112 reps", "reps", "112 reps", 112),
        ("85 kg", "load", "85 kg", load_worth(Decimal(85))),
        ("82,5kg", "load", "82.5 kg", load_worth(Decimal("82.5"))),
        # 0.45359237 kg to the pound, exactly (NIST SP 811).
        ("185 lb", "load", "185 lb", load_worth(Decimal("83.91458845"))),
    ],
)
def test_a_score_is_read_as_people_write_it(
    written: str, kind: str, score: str, worth: int
) -> None:
    read_as = read_old_score(written, "kg", None)
    assert (read_as.kind, read_as.score, read_as.worth) == (kind, score, worth)


def test_a_bare_number_is_what_the_benchmark_is_scored_in() -> None:
    assert read_old_score("85", "lb", "load").score == "85 lb"
    assert read_old_score("112", "kg", "reps").score == "112 reps"
    assert read_old_score("70", "kg", "time").score == "70 reps"
    for kind in (None, "rounds"):
        with pytest.raises(ValueError, match=r"7\+12"):
            read_old_score("85", "kg", kind)


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
        ("Ilse,Turntable,7+12,03/01/2024", "Write 2024-01-03 or 2024-03-01"),
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
        (b"", "no column is called name or benchmark or score or date"),
        (b"who,what\nIlse,7\n", "Write name,benchmark,score,date as the first line"),
        ("name,benchmark,score,date\nJosé,T,7+1,2024-01-01".encode("latin-1"), "UTF-8"),
        (b"PK\x03\x04\x00\x00", "Save the spreadsheet as CSV in UTF-8"),
        (b'name,benchmark,score,date\n"Ilse,T,7+1,2024-01-01\n', "quotes that don't match"),
    ],
)
def test_a_file_that_is_no_such_table_gets_one_finding(raw: bytes, said: str) -> None:
    rows, findings = read(raw)
    assert not rows
    assert said in str(findings[0])


@given(st.binary(max_size=200))
def test_no_file_makes_it_fail(raw: bytes) -> None:
    rows, findings = read(HEAD.encode() + raw)
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
