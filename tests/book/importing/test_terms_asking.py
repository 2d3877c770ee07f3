"""Loads and lengths beside a score, as people write them."""

import pytest

from tests.book.importing.read_sheets import HEAD, asked, reading


@pytest.mark.parametrize("written", ["15", "15kg", "15,0 kg", "15.0", "15 KG", "15 kgs"])
def test_loads_and_lengths_are_kept_as_classes_keep_them(written: str) -> None:
    head = f"{HEAD};load;work".replace(",", ";")
    row = f"Ilse;Turntable;7+1;2024-03-01;{written};600"
    done = reading(row, head=head)
    assert (done.rows[0].loads, done.rows[0].work) == ("15 kg", "10:00")


def test_a_short_bare_length_may_be_minutes() -> None:
    head, row = f"{HEAD},work", "Ilse,Turntable,7+1,2024-03-01,16"
    assert asked(reading(row, head=head)) == {"lengths": ("minutes", "seconds", "leave-out")}
    assert reading(row, head=head, answers={"lengths": "minutes"}).rows[0].work == "16:00"
    assert reading(row, head=f"{HEAD},cap (min)").rows[0].work == "16:00"


@pytest.mark.parametrize(
    ("more", "said"),
    [("heavy,", 'Write "22.5 kg"'), (",long", "Write how long it was, as in 16:00")],
)
def test_terms_that_cant_be_read_are_findings(more: str, said: str) -> None:
    done = reading(f"Ilse,Turntable,7+1,2024-03-01,{more}", head=f"{HEAD},load,work")
    assert said in str(done.findings[0])


@pytest.mark.parametrize(
    "written", ["70 kg x 3", "70kg x3", "70 kilos for 3 reps", "70,0 kg \u00d7 3", "70 kg * 3"]
)
def test_a_load_with_its_reps_says_both(written: str) -> None:
    (row,) = reading(f'Ilse,Front squat,"{written}",2024-03-01').rows
    assert (row.score.score, row.work) == ("70 kg", "3 reps")


def test_what_says_two_numbers_of_reps_is_put_right_first() -> None:
    done = reading("Ilse,Front squat,70 kg x 3,2024-03-01,5", head=f"{HEAD},reps per set")
    assert "it says 3 reps and 5 reps. Write which of both it was." in str(done.findings[0])


@pytest.mark.parametrize("written", ["70 x 3", "3 x 70", "70x3"])
def test_which_of_two_numbers_is_the_load_is_never_guessed(written: str) -> None:
    done = reading(f"Ilse,Front squat,{written},2024-03-01")
    assert "write the load" in str(done.findings[0]).casefold()


@pytest.mark.parametrize("written", ["12:00:00", "PT12H00M00S"])
def test_a_length_that_a_sheet_made_a_time_of_day_is_asked_about(written: str) -> None:
    head, row = f"{HEAD},cap", f"Ilse,Turntable,7+1,2024-03-01,{written}"
    assert asked(reading(row, head=head)) == {"lengths-of-day": ("minutes", "hours", "leave-out")}
    said = reading(row, head=head, answers={"lengths-of-day": "minutes"})
    assert said.rows[0].work == "12:00"


def test_half_kilograms_may_be_written_with_the_sign_for_a_half() -> None:
    (row,) = reading("Ilse,Front squat,62\u00bd kg,2024-03-01").rows
    assert row.score.score == "62.5 kg"
