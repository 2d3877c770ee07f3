"""What a score means is asked where it can't be told, once for all that it holds for."""

import pytest

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.powers import Usual
from tests.book.importing.read_sheets import asked, reading, scores


def test_a_bare_number_on_a_timed_benchmark_is_asked_about_once_for_all_of_them() -> None:
    rows = [f"Ilse,Third Rail,{n},2024-03-0{n % 9 + 1}" for n in range(500, 505)]
    done = reading(*rows)
    assert asked(done) == {"numbers:third rail": ("reps", "seconds", "leave-out")}
    assert done.questions[0].about == "500 (line 2), 501 (line 3), 502 (line 4), and 2 more"
    said = reading(*rows, answers={"numbers:third rail": "seconds"})
    assert scores(said) == ["8:20", "8:21", "8:22", "8:23", "8:24"]
    left = reading(*rows, answers={"numbers:third rail": "leave-out"})
    assert (scores(left), left.left_out) == ([], 5)


def test_a_bare_number_on_a_benchmark_that_nobody_knows_may_be_anything() -> None:
    rows = ("Ilse,Loop,85,2024-03-01", "Bram,Loop,90,2024-03-01")
    assert asked(reading(*rows)) == {
        "numbers:loop": ("load", "reps", "rounds", "seconds", "leave-out")
    }
    assert scores(reading(*rows, answers={"numbers:loop": "load"})) == ["85 kg", "90 kg"]


def test_what_the_sheet_itself_says_elsewhere_is_not_asked() -> None:
    rows = ("Ilse,Loop,85,2024-03-01", "Bram,Loop,90 kg,2024-03-01")
    assert scores(reading(*rows)) == ["85 kg", "90 kg"]
    head = "name,benchmark,score (s),date"
    assert scores(reading("Ilse,Third Rail,600,2024-03-01", head=head)) == ["10:00"]
    head = "name,benchmark,Score (lb),date"
    assert scores(reading("Ilse,Loop,185,2024-03-01", head=head)) == ["185 lb"]


def test_a_time_and_reps_at_the_cap_are_one_timed_benchmark_whichever_comes_first() -> None:
    rows = ("Ilse,Loop,70 reps,2024-03-01", "Bram,Loop,8:31,2024-03-01")
    assert [row.score.kind for row in reading(*rows).rows] == ["time", "time"]


def test_times_of_day_are_asked_about_once_a_column() -> None:
    rows = ("Ilse,Third Rail,12:03:00,2024-03-01", "Bram,Loop,9:30:00,2024-03-01")
    assert asked(reading(*rows)) == {"times": ("minutes", "hours", "leave-out")}
    assert scores(reading(*rows, answers={"times": "minutes"})) == ["12:03", "9:30"]


def test_hours_that_are_meant_are_asked_about_again_where_nobody_works_so_long() -> None:
    row = "Ilse,Third Rail,12:03:00,2024-03-01"
    done = reading(row, answers={"times": "hours"})
    assert asked(done) == {"far:third rail": ("take", "leave-out")}
    assert "beyond what people can do" in done.questions[0].words


@pytest.mark.parametrize(
    ("benchmark", "score"),
    [
        ("front squat", "9999 kg"),  # beyond people
        ("front squat", "825 lb"),  # beyond the book: 374 kg where the most is 70
        ("turntable", "999+9999"),
        ("turntable", "7+999"),
        ("third rail", "3:00:01"),
        ("third rail", "0:03"),
        ("third rail", "3:59"),  # less than half of the book's fastest, 8:00
        ("third rail", "35:01"),  # over three times its slowest, 11:40
        ("headway", "241 reps"),
        ("loop", "3001 reps"),
    ],
)
def test_what_lies_beyond_the_book_or_beyond_people_is_asked_about(
    benchmark: str, score: str
) -> None:
    row = f"Ilse,{benchmark},{score},2024-03-01"
    done = reading(row)
    assert asked(done) == {f"far:{benchmark}": ("take", "leave-out")}
    assert score in done.questions[0].about
    assert len(scores(reading(row, answers={f"far:{benchmark}": "take"}))) == 1


@pytest.mark.parametrize(
    ("benchmark", "score"),
    [("front squat", "140 kg"), ("third rail", "4:00"), ("third rail", "35:00"), ("loop", "9+9")],
)
def test_what_a_good_or_a_slow_day_brings_is_not_asked_about(benchmark: str, score: str) -> None:
    assert len(scores(reading(f"Ilse,{benchmark},{score},2024-03-01"))) == 1


def test_a_slip_of_the_decimal_mark_stands_out_in_the_sheet_itself() -> None:
    usual = [f"Ilse,Press,{kg} kg,2024-03-0{n}" for n, kg in enumerate((40, 42.5, 45, 41), 1)]
    assert asked(reading(*usual, "Bram,Press,425 kg,2024-03-05")) == {
        "far:press": ("take", "leave-out")
    }


def test_more_odd_reps_than_any_round_in_the_book_has_are_asked_about() -> None:
    usual = {("turntable", False): Usual(5, 9, most_odd=26)}
    known = BookKnown({"turntable": "rounds"}, usual)
    rows = ("Ilse,Turntable,7+26,2024-03-01", "Bram,Turntable,7+300,2024-03-01")
    done = reading(*rows, known=known)
    assert asked(done) == {"far:turntable": ("take", "leave-out")}
    assert done.questions[0].about == "7+300 (line 3)"


def test_what_lies_far_is_asked_about_once_nothing_else_is_so_that_all_of_it_is_told() -> None:
    rows = ("Ilse,Third Rail,7:00:00,2024-03-01", "Bram,Third Rail,72,2024-03-01")
    numbers = {"numbers:third rail": "seconds", "times": "hours"}
    assert "far:third rail" not in asked(reading(*rows))
    done = reading(*rows, answers=numbers)
    assert asked(done) == {"far:third rail": ("take", "leave-out")}
    assert done.questions[0].about == "7:00:00 (line 2), 1:12 (line 3)"
    ahead = reading(*rows, answers={"far:third rail": "take"})
    assert ahead.not_asked == ()
    assert len(reading(*rows, answers={**numbers, "far:third rail": "take"}).rows) == 2
