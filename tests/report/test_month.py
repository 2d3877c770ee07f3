"""A month on one page: who came how often, what is new, and whom it leaves out."""

import re
from collections.abc import Callable
from datetime import date, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet, Merge
from classclock.book.files.goal_lines import GoalDropped, GoalSet
from classclock.book.files.import_lines import Import, ImportedScore, ImportedVisit
from classclock.book.tables.catching_up import CaughtUp
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import Athlete
from classclock.records.bests import Standing
from classclock.records.month import month_of, read_month
from classclock.records.result import Result, Terms, rounds_worth
from classclock.report.month.month_html import month_html
from classclock.report.month.month_layout import month_layout, page_count
from classclock.report.month.month_text import aside_words, month_lines
from classclock.report.month.news import NEWS, News
from classclock.report.month.page import CameOften, MonthPage, month_page
from tests.report.printed import Printed, needs_a_printer

TODAY = date(2026, 12, 24)
NOVEMBER = read_month("2026-11")
WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")

PageOf = Callable[..., MonthPage]


@pytest.fixture
def page_of(book: Book, up_to_date: Callable[[], CaughtUp]) -> PageOf:
    def read(month: str = "2026-11", named: Any = ()) -> MonthPage:
        up_to_date()
        with book.reading() as connection:
            return month_page(connection, read_month(month), TODAY, named)

    return read


def told(page: MonthPage, key: str) -> list[str]:
    """A kind of news, a line for each."""
    return [
        f"{one.athlete.name}: {one.result.score if one.result else one.day}"
        for kind, news in page.news
        for one in news
        if kind.key == key
    ]


def gains(page: MonthPage) -> list[str]:
    return [
        one.standing.gain() for _, news in page.news for one in news if one.standing is not None
    ]


def test_who_came_is_counted_and_visitors_beside_them(depot: Any, page_of: PageOf) -> None:
    nameless = {"id": "v1", "name": "visitor 1", "key": "v", "visitor": True}
    both = depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 6))
    depot.held("2026-10-31", both)
    depot.held("2026-11-01", both)
    values = depot.values("2026-11-30", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-30", *values["pieces"], people=[*values["people"], nameless])
    depot.held("2026-12-01", both)
    page = page_of()
    assert [(one.athlete.name, one.times) for one in page.came] == [("Ilse", 2), ("Bram", 1)]
    assert (page.classes, page.people, page.visits, page.visitors) == (2, 2, 3, 1)
    assert month_lines(page)[:2] == (
        "November 2026",
        "2 classes; 2 people came 3 times; visitors once",
    )


def test_two_entries_that_are_one_person_came_once_to_a_class(depot: Any, page_of: PageOf) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Ilsabet", 6)))
    write_down(depot.folder, [Merge(gone="ilsabet", kept="ilse")], WHEN)
    assert [one.times for one in page_of().came] == [1]


def test_a_best_stands_beside_what_stood_before_the_month(depot: Any, page_of: PageOf) -> None:
    for day, rounds in (("2026-10-02", 7), ("2026-11-03", 8), ("2026-11-10", 7), ("2026-11-24", 9)):
        depot.held(day, depot.turntable(depot.rounds("Ilse", rounds)))
    page = page_of()
    assert told(page, "new_bests") == ["Ilse: 9+0"]
    assert gains(page) == ["54 reps more than 7+0 of 2 October 2026"]
    assert told(page_of("2026-12"), "new_bests") == []


def test_a_past_month_is_told_as_it_stood_then(depot: Any, page_of: PageOf) -> None:
    for day, rounds in (("2026-09-02", 7), ("2026-10-03", 8), ("2026-11-10", 9)):
        depot.held(day, depot.turntable(depot.rounds("Ilse", rounds)))
    assert gains(page_of("2026-10")) == ["27 reps more than 7+0 of 2 September 2026"]


def test_whoever_did_it_for_the_first_time_this_month_may_have_bettered_it_since(
    depot: Any, page_of: PageOf
) -> None:
    for day, rounds in (("2026-11-03", 7), ("2026-11-10", 8)):
        depot.held(day, depot.turntable(depot.rounds("Noor", rounds)))
    page = page_of()
    assert told(page, "first_classes") == ["Noor: 2026-11-03"]
    assert told(page, "first_times") == ["Noor: 7+0"]
    assert gains(page) == ["27 reps more than 7+0 of 3 November 2026"]


def test_bests_under_terms_that_dont_compare_stand_apart(depot: Any, page_of: PageOf) -> None:
    for day, rounds in (("2026-10-02", 7), ("2026-11-03", 8)):
        ways = ("", "step-up")
        for way, time in zip(ways, ("18:30", "19:45"), strict=True):
            lane = depot.rounds("Ilse", rounds, modification=way)
            depot.held(day, depot.turntable(lane), time=time)
    page = page_of()
    assert told(page, "new_bests") == ["Ilse: 8+0", "Ilse: 8+0"]
    words = [aside_words(one) for _, news in page.news for one in news]
    assert words == [
        "27 reps more than 7+0 of 2 October 2026; on 3 November",
        "27 reps more than 7+0 of 2 October 2026; step-up; on 3 November",
    ]


def test_the_first_time_this_way_is_no_first_time(depot: Any, page_of: PageOf) -> None:
    depot.held("2026-10-02", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 9, modification="step-up")))
    assert page_of().news == ()


def test_only_what_stands_is_told(depot: Any, page_of: PageOf) -> None:
    depot.held("2026-10-02", depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 7)))
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 99), status="provisional"))
    late = depot.rounds("Ilse", 9, late=True)
    stopped = depot.rounds("Bram", 9, status="stopped", rank=None)
    depot.held("2026-11-10", depot.turntable(late, stopped))
    depot.held("2026-11-17", depot.third_rail(depot.timed("Ilse", "8:31"), status="provisional"))
    assert page_of().news == ()


def test_a_load_that_was_put_right_is_told_as_it_was_put_right(depot: Any, page_of: PageOf) -> None:
    depot.held("2026-10-02", depot.squats(depot.lifted("Ilse", "80 kg")))
    typo = {**depot.lifted("Ilse", "825 kg"), "load_kg": 82.5, "score": "82.5 kg"}
    depot.held("2026-11-03", depot.squats(typo))
    page = page_of()
    assert told(page, "new_bests") == ["Ilse: 82.5 kg"]
    assert gains(page) == ["2.5 kg heavier than 80 kg of 2 October 2026"]


def imported(day: str, rounds: int, name: str = "Odell") -> ImportedScore:
    """A row of an old sheet."""
    return ImportedScore(
        athlete=name.lower(),
        name=name,
        benchmark="turntable",
        score=f"{rounds}+0",
        kind="rounds",
        worth=rounds_worth(rounds, 0),
        day=day,
        work="?",
        loads="?",
    )


def test_imported_scores_of_the_month_are_told_and_make_nobody_new(
    depot: Any, page_of: PageOf
) -> None:
    old = Import(file="old.csv", scores=(imported("2026-09-01", 7), imported("2026-11-02", 8)))
    write_down(depot.folder, [old], WHEN)
    depot.held("2026-11-10", depot.third_rail(depot.timed("Odell", "8:31")))
    page = page_of()
    assert told(page, "new_bests") == ["Odell: 8+0"]
    assert told(page, "first_times") == ["Odell: 8:31"]
    assert told(page, "first_classes") == []


def test_whoever_has_an_imported_result_came_on_its_day(depot: Any, page_of: PageOf) -> None:
    # Common practice, no source: whoever stands on the board of a day was there that day.
    depot.held("2026-11-10", depot.third_rail(depot.timed("Odell", "8:31")))
    rows = (
        *(imported("2026-11-02", rounds) for rounds in (7, 8)),  # one evening, two results
        imported("2026-11-10", 9),  # was in the class of that day, and is counted already
        imported("2026-11-10", 6, "Bram"),
        imported("2026-10-31", 5, "Bram"),
    )
    write_down(depot.folder, [Import(file="old.csv", scores=rows)], WHEN)
    page = page_of()
    assert [(one.athlete.name, one.times) for one in page.came] == [("Odell", 2), ("Bram", 1)]
    assert month_lines(page)[1] == "2 classes; 2 people came 3 times"


def test_visits_of_another_club_s_book_are_visits(depot: Any, page_of: PageOf) -> None:
    class_of = {"2026-11-02": 1_793_640_600_000, "2026-11-09": 1_794_245_400_000}
    visits = tuple(
        ImportedVisit(athlete=name.lower(), name=name, key=name[0].lower(), day=day, moment=moment)
        for day, moment in class_of.items()
        for name in ("Odell", "Bram")
    )
    scores = (imported("2026-11-02", 7),)
    write_down(depot.folder, [Import(file="west", scores=scores, visits=visits[:3])], WHEN)
    page = page_of()
    assert [(one.athlete.name, one.times) for one in page.came] == [("Odell", 2), ("Bram", 1)]
    assert page.classes == 2
    assert month_lines(page_of("2026-12"))[-1] == "Nobody came, and nothing was scored."


def test_who_is_kept_off_the_wall_is_on_the_page_by_name_alone(depot: Any, page_of: PageOf) -> None:
    both = depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 6))
    depot.held("2026-11-03", both)
    write_down(depot.folder, [MarkSet(athlete="ilse", mark="off the wall", on=True)], WHEN)
    page = page_of()
    assert "Ilse" not in "\n".join(month_lines(page))
    assert b"Ilse" not in month_html(page, "Line 0 Depot", TODAY)
    assert (page.left_out, page.people) == (1, 2)
    asked_for = page_of(named={"ilse"})
    assert told(asked_for, "first_times") == ["Bram: 6+0", "Ilse: 7+0"]
    assert asked_for.left_out == 0


def test_goals_that_were_reached_are_counted_those_that_ended_since_too(
    depot: Any, page_of: PageOf
) -> None:
    """Ilse's first was reached on the 10th and replaced that day; Noor's ended before it was."""

    def goal(who: str, rounds: int, since: str) -> GoalSet:
        worth, score = rounds_worth(rounds, 0), f"{rounds}+0"
        return GoalSet(
            athlete=who,
            benchmark="Turntable",
            kind="rounds",
            score=score,
            worth=worth,
            since=since,
        )

    both = depot.turntable(depot.rounds("Ilse", 6), depot.rounds("Noor", 6))
    depot.held("2026-10-20", both)
    for day, rounds in (("2026-11-10", 7), ("2026-11-24", 8)):
        lanes = (depot.rounds("Ilse", rounds), depot.rounds("Noor", rounds))
        depot.held(day, depot.turntable(*lanes))
    changes: list[GoalSet | GoalDropped] = [
        goal("ilse", 7, "2026-10-27"),
        goal("ilse", 8, "2026-11-10"),
        goal("noor", 8, "2026-10-27"),
        GoalDropped(athlete="noor", benchmark="turntable", day="2026-11-17"),
    ]
    write_down(depot.folder, changes, WHEN)
    page = page_of()
    assert told(page, "goals_reached") == ["Ilse: 7+0", "Ilse: 8+0"]
    text = "\n".join(month_lines(page))
    assert re.search("Goals reached\n  Ilse  Turntable 7[+]0  the goal was 7[+]0; on 10 Nov", text)
    assert b"Goals reached" in month_html(page, "Depot", TODAY)
    assert told(page_of("2026-12"), "goals_reached") == []


def test_a_month_that_isnt_over_says_so(depot: Any, page_of: PageOf) -> None:
    assert month_lines(page_of("2026-12"))[0] == "December 2026 so far"
    assert month_lines(page_of("2026-12"))[-1] == "Nobody came, and nothing was scored."


# -- on paper ----------------------------------------------------------------------


def busy(people: int) -> MonthPage:
    """Everybody has a best and a first time."""
    every = tuple(
        Athlete(f"id{number}", f"Saoirse-Marie {number}", "s", (), 3, "2026-11-03", "2026-11-24")
        for number in range(people)
    )
    before = _result("x", "2026-10-02", 7)
    news = []
    for kind in (one for one in NEWS if one.key in ("new_bests", "first_times")):
        stood = Standing("best", before, "28 reps") if kind.key == "new_bests" else None
        lines = (News(one, "2026-11-03", _result(one.id, "2026-11-03", 8), stood) for one in every)
        news.append((kind, tuple(lines)))
    came = tuple(CameOften(one, 12) for one in every)
    sums = {"classes": 12, "visits": 12 * people, "people": people, "visitors": 3}
    return MonthPage(NOVEMBER, so_far=False, came=came, news=tuple(news), left_out=0, **sums)


def _result(athlete: str, day: str, rounds: int) -> Result:
    return Result(
        athlete, "Turntable", "turntable", day, 1, f"{rounds}+12", "rounds", rounds, 1, Terms()
    )


@pytest.mark.parametrize("people", [1, 6, 26, 80])
def test_headings_and_asides_are_smaller_than_names(people: int) -> None:
    layout = month_layout(busy(people))
    assert layout.heading < layout.size
    assert layout.title < layout.size
    assert layout.aside < layout.size


def test_the_page_asks_nothing_of_any_address_and_a_name_is_never_markup(
    depot: Any, page_of: PageOf
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("<b>Ilse</b>", 7, members=["ilse"])))
    html = month_html(page_of(), "<i>Depot</i>", TODAY).decode()
    assert "&lt;b&gt;Ilse&lt;/b&gt;" in html
    assert not [
        sign for sign in ("http:", "https:", "url(", "<script", "<b>Ilse", "<i>") if sign in html
    ]


@needs_a_printer
@pytest.mark.parametrize("people", [6, 26])
def test_every_name_and_score_is_printed_whole_on_as_many_sheets_as_reckoned(
    tmp_path: Path, people: int
) -> None:
    page = busy(people)
    printed = Printed(month_html(page, "Line 0 Depot", TODAY), tmp_path)
    assert printed.size == (595, 842)  # ISO 216: A4 upright, in points
    assert len(printed.sheets) <= page_count(page, month_layout(page))
    words = "".join(printed.sheets)
    assert words.count("8+12") == 2 * people
    for one in page.came:
        assert words.count(f"{one.athlete.name} ") == 3


def test_months_know_no_news_of_another(depot: Any, page_of: PageOf) -> None:
    depot.held("2026-11-30", depot.turntable(depot.rounds("Ilse", 7)))
    assert page_of("2026-10").news == ()
    assert month_of(date(2026, 11, 30)) == NOVEMBER
