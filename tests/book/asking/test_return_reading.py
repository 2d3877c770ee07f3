"""Who comes back, as the book has it, beside the days that the files say."""

from datetime import date, datetime, timedelta
from typing import Any

import pytest

from classclock.book.asking.return_reading import ReturnQuestion, attended, returns_for
from classclock.book.changing import write_down
from classclock.book.files.changes import Merge
from classclock.book.tables.keeping import caught_up
from classclock.plan.reading.plan_reading import parse_plan
from classclock.records.returning import Attended, FirstWeeks
from tests.depot_classes import DepotClasses

TODAY = date(2026, 11, 30)
LATER = datetime.fromisoformat("2026-11-30T18:30:00+01:00")
BEGAN = int(LATER.timestamp() * 1000)
PLAN = """
title = "Turntable Monday"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 27
"""


def question(*people: str) -> ReturnQuestion:
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    return ReturnQuestion(people, plan, TODAY, BEGAN)


def ago(days: int) -> str:
    return (TODAY - timedelta(days=days)).isoformat()


@pytest.fixture
def club(depot: DepotClasses, storage: str) -> DepotClasses:
    """Bram comes twice a week; Piet was away for five, Noor came back a week ago."""
    for days in range(100, 0, -4):
        lanes: list[Any] = [depot.rounds("Bram", 7)]
        if days >= 35:
            lanes.append(depot.rounds("Piet", 8))
        if days > 60 or days == 8:
            lanes.append(depot.rounds("Noor", 6 if days > 60 else 3))
        if days <= 12:
            lanes.append(depot.rounds("Mei", 4))
        depot.held(ago(days), depot.turntable(*lanes))
    return depot


def test_who_has_been_away_is_known_with_what_they_did_before(club: DepotClasses) -> None:
    found = returns_for(club.folder, question("bram", "piet", "noor", "mei", "someone-new"))
    last = TODAY - timedelta(days=36)
    away = timedelta(days=36)
    assert found.weeks["piet"] == FirstWeeks(TODAY, 1, away, last)
    assert (found.weeks["noor"].week, found.weeks["noor"].weeks_away) == (2, 8)
    # Both are new, and the book was kept for months before them.
    assert found.weeks["mei"] == FirstWeeks(TODAY - timedelta(days=12), 2, None, None)
    assert found.weeks["someone-new"] == FirstWeeks(TODAY, 1, None, None)
    assert set(found.weeks) == {"piet", "noor", "mei", "someone-new"}
    assert set(found.basis.past) == {"piet", "noor"}
    assert {one.result.score for one in found.basis.past["piet"]} == {"8+0"}


def test_nobody_is_new_while_the_book_itself_is(depot: DepotClasses, storage: str) -> None:
    depot.held(ago(20), depot.turntable(depot.rounds("Bram", 7)))
    depot.held(ago(10), depot.turntable(depot.rounds("Mei", 7)))
    found = returns_for(depot.folder, question("mei", "someone-new"))
    assert found.weeks == {}


def test_two_entries_that_are_one_person_have_come_on_the_days_of_both(
    club: DepotClasses,
) -> None:
    write_down(club.folder, [Merge(gone="piet", kept="mei", name="Mei")], LATER)
    found = returns_for(club.folder, question("piet", "mei"))
    assert found.weeks["piet"] == found.weeks["mei"]
    assert found.weeks["mei"].weeks_away == 3


def test_who_came_last_long_ago_is_back(depot: DepotClasses, storage: str) -> None:
    depot.held("2024-03-05", depot.turntable(depot.rounds("Odell", 7)))
    depot.held(ago(3), depot.turntable(depot.rounds("Bram", 7)))
    with caught_up(depot.folder) as book, book.reading() as connection:
        came = attended(connection, ["odell"], TODAY)
    assert came == {"odell": Attended((date(2024, 3, 5),), new=False)}


def test_a_club_without_a_book_says_nothing_of_anybody(depot: DepotClasses) -> None:
    assert returns_for(depot.folder, question("bram")).weeks == {}
