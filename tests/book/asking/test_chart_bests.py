"""What a chart has of lifts: every set that stands, whatever the heaviest of its class was."""

from collections.abc import Callable
from typing import Any

import pytest

from classclock.book.asking.chart_bests import chart_bests
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.records.result import Result

SetsOf = Callable[..., dict[str, Result]]


@pytest.fixture
def sets_of(book: Book, up_to_date: Callable[[], CaughtUp]) -> SetsOf:
    def read(athlete: str = "ilse", of: tuple[str, ...] | None = None) -> dict[str, Result]:
        """What somebody has in the front squat, by the reps of the set."""
        up_to_date()
        with book.reading() as connection:
            bests = chart_bests(connection, of).get((athlete, "front squat"), ())
        return {best.result.terms.work: best.result for best in bests}

    return read


def loads(found: dict[str, Result]) -> dict[str, str]:
    return {work: one.score for work, one in sorted(found.items())}


def test_of_each_number_of_reps_the_heaviest_of_any_class_is_kept(
    depot: Any, sets_of: SetsOf
) -> None:
    depot.held("2026-11-03", depot.squats(depot.lifted("Ilse", "65 kg", "70 kg", "72.5 kg")))
    depot.held("2026-11-10", depot.squats(depot.lifted("Ilse", "60 kg", "/75 kg", "80 kg")))
    found = sets_of()
    assert loads(found) == {"1 rep": "80 kg", "3 reps": "70 kg", "5 reps": "65 kg"}
    assert found["5 reps"].day == "2026-11-03"
    assert found["5 reps"].written == "Front Squat"
    assert sets_of(of=("ilse",)) == found
    assert sets_of(of=("bram",)) == {}


def test_only_sets_of_a_score_that_counts_are_there(depot: Any, sets_of: SetsOf) -> None:
    depot.held("2026-11-03", depot.squats(depot.lifted("Ilse", "60 kg", "65 kg")))
    heavy = ("90 kg", "95 kg")
    depot.held("2026-11-10", depot.squats(depot.lifted("Ilse", *heavy), status="provisional"))
    depot.held("2026-11-11", depot.squats(depot.lifted("Ilse", *heavy, late=True)))
    typo = {**depot.lifted("Ilse", "625 kg"), "load_kg": 62.5, "score": "62.5 kg"}
    depot.held("2026-11-12", depot.squats(typo))
    assert loads(sets_of()) == {"3 reps": "65 kg", "5 reps": "60 kg", "?": "62.5 kg"}


def test_sets_with_another_option_or_shared_stand_apart(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    easier = depot.lifted("Ilse", "90 kg", "95 kg", modification="Goblet squat")
    depot.held("2026-11-03", depot.squats(easier))
    again = depot.lifted("Ilse", "92.5 kg", "85 kg", modification="goblet squat")
    depot.held("2026-11-04", depot.squats(again))
    depot.held("2026-11-05", depot.squats(depot.lifted("Ilse + Bram", "100 kg")))
    depot.held("2026-11-10", depot.squats(depot.lifted("Ilse", "60 kg", "65 kg")))
    up_to_date()
    with book.reading() as connection:
        bests = chart_bests(connection)["ilse", "front squat"]
    terms = [best.result.terms for best in bests]
    found = [(one.modification.lower(), one.team, one.work) for one in terms]
    assert sorted(zip(found, (best.result.score for best in bests), strict=True)) == [
        (("", 1, "3 reps"), "65 kg"),
        (("", 1, "5 reps"), "60 kg"),
        (("", 2, "5 reps"), "100 kg"),
        (("goblet squat", 1, "3 reps"), "95 kg"),
        (("goblet squat", 1, "5 reps"), "92.5 kg"),
    ]


def test_a_class_that_is_read_again_leaves_no_set_behind(depot: Any, sets_of: SetsOf) -> None:
    depot.held("2026-11-03", depot.squats(depot.lifted("Ilse", "65 kg", "70 kg")))
    assert loads(sets_of())["5 reps"] == "65 kg"
    path = depot.held("2026-11-03", depot.squats(depot.lifted("Ilse", "55 kg", "70 kg")))
    assert loads(sets_of())["5 reps"] == "55 kg"
    path.unlink()
    assert sets_of() == {}
