"""Headings go by many names; those that nobody knows are asked about, and remembered."""

import pytest

from tests.book.importing.read_sheets import asked, reading, scores


@pytest.mark.parametrize(
    "head",
    ["Athlete,Lift,Result,Day", "WHO,Exercise,Score (kg),When", "Name:,Piece,points,Date done"],
)
def test_headings_go_by_many_names(head: str) -> None:
    done = reading("Ilse,Front squat,60 kg,2024-03-01", head=head)
    assert scores(done) == ["60 kg"]
    assert [one.taken_for for one in done.columns] == ["name", "benchmark", "score", "date"]


def test_headings_that_nobody_knows_are_asked_about_and_what_was_said_is_remembered() -> None:
    head, row = "Lid,Onderdeel,Uitslag,Datum", "Ilse,Turntable,7+1,2024-03-01"
    done = reading(row, head=head)
    assert set(asked(done)) == {f"column:{one}" for one in ("name", "benchmark", "score", "date")}
    assert done.questions[0].choices[0].words == '"Lid", as in Ilse'
    answers = {
        f"column:{one}": str(place)
        for place, one in enumerate(("name", "benchmark", "score", "date"), start=1)
    }
    done = reading(row, head=head, answers=answers)
    assert scores(done) == ["7+1"]
    assert scores(reading(row, head=head, remembered=done.to_remember)) == ["7+1"]


def test_the_coach_says_which_column_is_what() -> None:
    head, row = "Name,Old name,Piece,Result,Date", "I.,Ilse,Turntable,7+1,2024-03-01"
    done = reading(row, head=head, columns={"old name": "name", "Name": "-"})
    assert done.rows[0].name == "Ilse"
    done = reading(row, head=head, columns={"Nickname": "name"})
    assert 'no column is called "Nickname". It has "Name"' in str(done.findings[0])


def test_two_columns_that_may_be_the_score_are_asked_about() -> None:
    head = "name,lift,reps,weight,date"
    done = reading("Ilse,Front squat,3,60,2024-03-01", head=head)
    assert asked(done) == {"column:score": ("3", "4")}
    done = reading("Ilse,Front squat,3,60,2024-03-01", head=head, answers={"column:score": "4"})
    assert scores(done) == ["60 kg"]
