"""Who hasn't come for weeks: since when, and what they did most often."""

from collections.abc import Callable
from datetime import date, datetime
from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.changes import Merge
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.records.result import rounds_worth
from classclock.report.away.away_text import away_lines, away_values
from classclock.report.away.page import AwayPage, away_page

TODAY = date(2026, 11, 30)
WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")
AwayOf = Callable[..., AwayPage]


@pytest.fixture
def away(book: Book, up_to_date: Callable[[], CaughtUp]) -> AwayOf:
    def read(weeks: int = 3, **how: Any) -> AwayPage:
        up_to_date()
        with book.reading() as connection:
            return away_page(connection, TODAY, weeks, **how)

    return read


def names(page: AwayPage) -> list[str]:
    return [one.athlete.name for one in page.people]


def test_who_last_came_three_weeks_ago_is_away_and_a_day_later_isnt(
    depot: Any, away: AwayOf
) -> None:
    depot.held("2026-11-09", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-10", depot.turntable(depot.rounds("Bram", 7)))
    assert names(away()) == ["Ilse"]
    assert names(away(2)) == ["Bram", "Ilse"]  # who came last first
    assert names(away(4)) == []


def test_what_they_did_most_often_stands_first(depot: Any, away: AwayOf) -> None:
    for day in ("2026-10-01", "2026-10-06", "2026-10-13"):
        pieces = [depot.turntable(depot.rounds("Ilse", 7))]
        if day > "2026-10-01":
            pieces.append(depot.squats(depot.lifted("Ilse", "60 kg")))
        if day > "2026-10-06":
            pieces.append(depot.third_rail(depot.timed("Ilse", "8:31")))
        depot.held(day, *pieces)
    (ilse,) = away().people
    assert ilse.most == (("Turntable", 3), ("Front Squat", 2), ("Third Rail", 1))
    assert away_lines(away()) == (
        "Last here 3 weeks ago or more:",
        "",
        "  Ilse  13 October 2026, 6 weeks ago; came 3 times",
        "        most often Turntable (3 times), Front Squat (2 times), Third Rail (once)",
        "",
        "Why isn't known here, and is theirs to say.",
    )


def test_who_never_did_a_benchmark_is_told_by_the_pieces(depot: Any, away: AwayOf) -> None:
    sandbox = depot.piece("Sandbox", "rounds-in-time", [depot.rounds("Noor", 5)], benchmark=None)
    depot.held("2026-10-01", sandbox)
    assert away().people[0].most == (("Sandbox", 1),)


def test_two_entries_that_are_one_person_are_away_once_or_not_at_all(
    depot: Any, away: AwayOf
) -> None:
    depot.held("2026-10-01", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-24", depot.turntable(depot.rounds("Ilsabet", 7)))
    assert names(away()) == ["Ilse"]
    write_down(depot.folder, [Merge(gone="ilsabet", kept="ilse")], WHEN)
    assert names(away()) == []


def old_scores(*days: str, who: str = "Odell") -> Import:
    scores = [
        ImportedScore(
            athlete=who.lower(),
            name=who,
            benchmark="Turntable",
            score="7+0",
            kind="rounds",
            worth=rounds_worth(7, 0),
            day=day,
        )
        for day in days
    ]
    return Import(file="old.csv", scores=tuple(scores))


def test_an_imported_result_says_that_somebody_came_that_day(depot: Any, away: AwayOf) -> None:
    write_down(depot.folder, [old_scores("2026-09-01", "2026-09-01", "2026-08-25")], WHEN)
    depot.held("2026-09-15", depot.turntable(depot.rounds("Ilse", 7)))
    write_down(depot.folder, [old_scores("2026-09-15", "2026-10-06", who="Ilse")], WHEN)
    assert away_lines(away()) == (
        "Last here 3 weeks ago or more:",
        "",
        "  Ilse   6 October 2026, 7 weeks ago; came 2 times",
        "         most often Turntable (3 times)",
        "  Odell  1 September 2026, 12 weeks ago; came 2 times",
        "         most often Turntable (3 times)",
        "",
        "Why isn't known here, and is theirs to say.",
    )
    write_down(depot.folder, [old_scores("2026-11-24")], WHEN)
    assert names(away()) == ["Ilse"]


def test_those_of_long_ago_are_counted_unless_all_are_asked_for(depot: Any, away: AwayOf) -> None:
    depot.held("2025-12-01", depot.turntable(depot.rounds("Ilse", 7)))  # 52 weeks ago
    depot.held("2025-12-02", depot.turntable(depot.rounds("Bram", 7)))
    page = away()
    assert (names(page), page.longer) == (["Bram"], 1)
    assert away_lines(page)[-1] == "1 person last came a year ago or longer: --all names them too."
    assert names(away(everybody=True)) == ["Bram", "Ilse"]
    assert names(away(52)) == ["Ilse"]
    assert away_values(page)["longer"] == 1


def test_when_everybody_was_here_it_says_so(depot: Any, away: AwayOf) -> None:
    depot.held("2026-11-24", depot.turntable(depot.rounds("Ilse", 7)))
    assert away_lines(away()) == ("Nobody last came 3 weeks ago or more.",)
