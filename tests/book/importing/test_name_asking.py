"""Names of people and benchmarks that may be slips are asked about."""

import pytest

from classclock.book.importing.book_known import BookKnown
from classclock.units.names import tidy_name
from tests.book.importing.read_sheets import asked, reading


@pytest.mark.parametrize("written", ["Agdaa", "agd\u00e1", "Agda B"])
def test_a_name_near_to_one_in_the_book_is_asked_about(written: str) -> None:
    row = f"{written},Turntable,7+1,2024-03-01"
    done = reading(row)
    assert list(asked(done).values()) == [("Agda", "new", "leave-out")]
    assert "did you mean Agda?" in done.questions[0].words
    key = done.questions[0].key
    assert reading(row, answers={key: "Agda"}).rows[0].name == "Agda"
    assert reading(row, answers={key: "new"}).rows[0].name != "Agda"


def test_all_questions_of_a_kind_can_be_answered_at_once() -> None:
    rows = [f"{name},Turntable,7+1,2024-03-01" for name in ("Agdaa", "Ilsee", "Brams")]
    done = reading(*rows, answers={"name:*": "new", "name:Ilsee": "Ilse"})
    assert [row.name for row in done.rows] == ["Agdaa", "Ilse", "Brams"]
    assert not done.not_asked


def test_a_letter_in_four_is_another_name() -> None:
    assert asked(reading("Agta,Turntable,7+1,2024-03-01")) == {}


def test_a_name_near_to_one_that_stands_in_the_sheet_more_often_is_asked_about() -> None:
    rows = ["Saoirse,Turntable,7+1,2024-03-01", "Saoirse,Turntable,7+2,2024-03-02"]
    assert list(asked(reading("Saorise,Turntable,7+1,2024-03-03", *rows)).values()) == [
        ("Saoirse", "new", "leave-out")
    ]


def test_a_benchmark_near_to_one_in_the_book_is_asked_about() -> None:
    row = "Ilse,Turn table,7+1,2024-03-01"
    assert asked(reading(row)) == {"benchmark:turn table": ("turntable", "new", "leave-out")}
    done = reading(row, answers={"benchmark:turn table": "turntable"})
    assert done.rows[0].benchmark == "turntable"


def test_a_benchmark_keeps_the_capitals_of_the_sheet_unless_another_is_meant() -> None:
    (row,) = reading("Ilse,Third  RAIL,8:31,2024-03-01").rows
    assert (row.benchmark, row.written) == ("third rail", "Third RAIL")
    answers = {"benchmark:turn table": "turntable"}
    (row,) = reading("Ilse,Turn Table,7+1,2024-03-01", answers=answers).rows
    assert row.written == "turntable"


@pytest.mark.parametrize("written", ["Turn-Table", "turn  table"])
def test_a_hyphen_or_a_space_makes_no_other_benchmark(written: str) -> None:
    known = BookKnown({"turn-table": "rounds"}, called={"turn-table": "Turn-Table"})
    (row,) = reading(f"Ilse,{written},7+1,2024-03-01", known=known).rows
    assert (row.benchmark, row.written) == ("turn-table", tidy_name(written))


def test_a_question_calls_benchmarks_as_the_book_and_the_sheet_do() -> None:
    known = BookKnown({"turntable": "rounds"}, called={"turntable": "Turntable"})
    (question,) = reading("Ilse,Turn Table,7+1,2024-03-01", known=known).questions
    assert question.words == "Turn Table: did you mean Turntable?"
    assert [one.words for one in question.choices[:2]] == [
        "yes, it is Turntable",
        "no, it is a new one",
    ]


@pytest.mark.parametrize("written", ["Ilse + Bram", "Odell+Rune", "Ilse & Rune"])
def test_a_score_of_several_is_nobodys(written: str) -> None:
    (finding,) = reading(f"{written},Turntable,7+1,2024-03-01").findings
    assert "is more than one person. A shared score is nobody's best" in str(finding)


@pytest.mark.parametrize(
    ("written", "together"),
    [("Ilse, Bram", True), ("Ilse and Bram", True), ("Ilse/Bram", True), ("Jansen, Ilse", False)],
)
def test_names_in_a_row_are_several_where_each_is_known(written: str, together: bool) -> None:  # noqa: FBT001  a parameter
    done = reading(f'"{written}",Turntable,7+1,2024-03-01')
    assert bool(done.findings) == together
