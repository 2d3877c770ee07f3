"""Sheets are read in whatever they were saved: text of any encoding, workbooks."""

from datetime import date
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet
from tests.book.importing.made_workbooks import ods, xlsx
from tests.book.importing.read_sheets import KNOWN, TODAY, scores

WEST = "name;benchmark;score;date\nJos\u00e9;Turntable;7+1;2024-01-01\n"


@pytest.mark.parametrize(
    ("raw", "kind"),
    [
        (WEST.encode(), "text in UTF-8, with ; between the columns"),
        (WEST.encode("utf-8-sig"), "text in UTF-8, with ; between the columns"),
        (WEST.encode("latin-1"), "text in Western European (cp1252), with ; between the columns"),
        (WEST.encode("utf-16"), "text in UTF-16, with ; between the columns"),
        (WEST.encode("utf-16-be"), "text in UTF-16, with ; between the columns"),
        (f"sep=;\r\n{WEST}".encode(), "text in UTF-8, with ; between the columns"),
        (f"SEP=;\n{WEST}".encode("utf-16"), "text in UTF-16, with ; between the columns"),
    ],
)
def test_text_is_read_in_whatever_it_was_saved(raw: bytes, kind: str) -> None:
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert (done.kind, done.rows[0].name) == (kind, "Jos\u00e9")


def test_lines_are_counted_from_the_first_of_the_file() -> None:
    raw = f"sep=;\r\n{WEST}".encode()
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert done.rows[0].line == 3


@pytest.mark.parametrize(
    ("name", "encoding"),
    [
        ("\u0141ucja", "cp1250"),
        ("S\u0142awek", "cp1250"),
        ("\u041c\u0430\u0440\u0438\u044f", "cp1251"),
    ],
)
def test_letters_that_nothing_tells_are_asked_about(name: str, encoding: str) -> None:
    raw = f"name,benchmark,score,date\n{name},Turntable,7+1,2024-01-01\n".encode(encoding)

    def read(**answers: str) -> SheetReading:
        told = Told(answers)
        return read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)

    (question,) = read().questions
    assert (question.key, question.about) == ("encoding", "line 2")
    assert name in [one.words.partition(",")[0] for one in question.choices]
    assert read(encoding=encoding).rows[0].name == name


@pytest.mark.parametrize(
    "name", ["Jos\u00e9", "Zo\u00eb", "\u00d6zge", "Bj\u00f6rn \u00c5", "O\u2019Brien"]
)
def test_names_of_the_west_are_read_without_a_question(name: str) -> None:
    raw = f"name,benchmark,score,date\n{name},Turntable,7+1,2024-01-01\n".encode("cp1252")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY)
    assert [row.name for row in done.rows] == [name]


def test_another_encoding_can_be_said() -> None:
    raw = "name,benchmark,score,date\n\u0141ucja,Turntable,7+1,2024-01-01".encode("cp1250")
    told = Told(encoding="cp1250")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)
    assert done.rows[0].name == "\u0141ucja"
    told = Told(encoding="klingon")
    done = read_spreadsheet(raw, "old.csv", unit="kg", known=KNOWN, today=TODAY, told=told)
    assert 'no text in "klingon"' in str(done.findings[0])


@pytest.mark.parametrize("make", [xlsx, ods])
def test_a_workbook_says_numbers_times_and_days_as_they_were_typed(make: Any) -> None:
    rows = [
        ["Name", "Benchmark", "Score", "Date"],
        ["Ilse", "Front squat", 62.5, date(2024, 3, 1)],
        ["Bram", "Headway", 112, "4 March 2024"],
        ["Bram", "Turntable", "7+12", date(2024, 3, 1)],
    ]
    done = read_spreadsheet(make({"A": rows}), "old", unit="kg", known=KNOWN, today=TODAY)
    assert scores(done) == ["62.5 kg", "112 reps", "7+12"]
    assert [row.day for row in done.rows] == ["2024-03-01", "2024-03-04", "2024-03-01"]
    assert [row.line for row in done.rows] == [2, 3, 4]


@pytest.mark.parametrize("make", [xlsx, ods])
@given(cut=st.integers(min_value=0, max_value=400), at=st.integers(min_value=0))
def test_no_damaged_workbook_makes_it_fail(make: Any, cut: int, at: int) -> None:
    raw = make({"A": [["Name", "Benchmark", "Score", "Date"], ["Ilse", "Headway", 1, "1.1.2024"]]})
    place = at % len(raw)
    read_spreadsheet(raw[:place] + raw[place + cut :], "old", unit="kg", known=KNOWN, today=TODAY)
