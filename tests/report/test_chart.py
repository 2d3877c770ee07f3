"""The chart: who did what best, and when, whatever the order it is looked at in."""

from collections import Counter
from collections.abc import Callable, Sequence
from datetime import date
from html.parser import HTMLParser
from pathlib import Path
from typing import Any

import pytest

from classclock.book.goals.standing import GoalNow
from classclock.book.tables.queries import Athlete, Best
from classclock.records.class_entries import read_class
from classclock.records.goals import Goal, GoalStands
from classclock.records.result import Result, Terms, day_moment, load_worth, rounds_worth
from classclock.records.score_trend import PointedTo, ScoreTrend
from classclock.report.chart.chart import Chart, chart
from classclock.report.chart.chart_csv import chart_csv
from classclock.report.chart.chart_html import chart_html
from classclock.report.chart.chart_layout import chart_layout, sheet_count
from classclock.report.chart.chart_text import chart_lines
from classclock.report.chart.chart_words import legend, score_words, small_lines
from classclock.units.loads import parse_load
from tests.report.printed import Printed, needs_a_printer

MONTH = "2026-11"
ATHLETES = tuple(
    Athlete(name.lower(), name, name[0].lower(), (), 3, "2026-01-01", "2026-11-24")
    for name in ("Bram", "Ilse", "Noor")
)


@pytest.fixture
def charted(depot: Any) -> Callable[..., Chart]:
    """The chart of some results, each the only best of its athlete, benchmark and terms."""

    def make(*done: Any, **how: Any) -> Chart:
        """Each a day, a lane, and what else is to be said of its piece."""
        bests: dict[tuple[str, str], list[Best]] = {}
        for day, lane, *more in done:
            rounds = "+" in lane["score"]
            piece = (depot.turntable if rounds else depot.third_rail)(lane, **dict(*more))
            result: Result = read_class(depot.document(day, piece)).entries[0].result
            key = (result.athlete, result.benchmark)
            bests.setdefault(key, []).append(Best(result, 1, result.moment))
        for group in bests.values():
            group.sort(key=lambda best: -best.last_moment)
        return chart(ATHLETES, bests, month=MONTH, **how)

    return make


def names(shown: Chart) -> list[str]:
    return [row.name for row in shown.rows]


def scores(shown: Chart, benchmark: str) -> Sequence[str | None]:
    place = shown.benchmarks.index(benchmark)
    return [cell.best.score if (cell := row.cells[place]) else None for row in shown.rows]


def test_names_stand_down_and_benchmarks_across(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2026-11-03", depot.rounds("Ilse", 7, 12)), ("2026-10-03", depot.timed("Bram", "8:31"))
    )
    assert shown.benchmarks == ("third-rail", "turntable")
    assert names(shown) == ["Bram", "Ilse"]  # Noor has none
    assert scores(shown, "turntable") == [None, "7+12"]


def test_what_is_new_this_month_is_marked(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2026-11-03", depot.rounds("Ilse", 7)), ("2026-10-31", depot.rounds("Bram", 6))
    )
    cells = [row.cells[0] for row in shown.rows]
    assert [cell.new for cell in cells if cell] == [False, True]


def test_as_written_stands_before_modified_and_the_other_is_named(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2026-10-01", depot.rounds("Ilse", 7)),
        ("2026-11-03", depot.rounds("Ilse", 9, modification="step-up")),
        ("2026-11-03", depot.rounds("Bram", 8, modification="step-up")),
    )
    bram, ilse = (row.cells[0] for row in shown.rows)
    assert bram
    assert ilse
    assert (bram.modified, ilse.modified) == (True, False)
    assert ilse.best.score == "7+0"
    assert [other.score for other in ilse.others] == ["9+0"]


def test_of_two_loads_the_one_used_last_stands(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2026-10-01", depot.rounds("Ilse", 9, loads=["15 kg"])),
        ("2026-11-03", depot.rounds("Ilse", 7, loads=["22.5 kg"])),
    )
    (cell,) = shown.rows[0].cells
    assert cell
    assert (cell.best.score, cell.others[0].score) == ("7+0", "9+0")


def test_a_finish_stands_whatever_the_cap_was_that_was_used_last(charted: Any, depot: Any) -> None:
    fitted = {"length_s": 600, "planned_s": 720}
    shown = charted(
        ("2026-10-01", depot.timed("Ilse", "8:31")),
        ("2026-11-03", depot.timed("Ilse", "9:02"), fitted),
        ("2026-10-01", depot.timed("Bram", "11:31")),
        ("2026-11-03", depot.timed("Bram", "50 reps"), fitted),
    )
    bram, ilse = (row.cells[0] for row in shown.rows)
    assert ilse
    assert (ilse.best.score, ilse.others) == ("8:31", ())
    assert bram, "after 11:31 nobody knows what he had done by 10:00"
    assert (bram.best.score, [other.score for other in bram.others]) == ("50 reps", ["11:31"])


def test_rounds_in_a_shorter_time_have_a_best_of_their_own(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2026-10-01", depot.rounds("Ilse", 9)),
        ("2026-11-03", depot.rounds("Ilse", 7), {"length_s": 720, "planned_s": 960}),
    )
    (cell,) = shown.rows[0].cells
    assert cell
    assert (cell.best.score, [other.score for other in cell.others]) == ("7+0", ["9+0"])


def test_a_load_that_was_not_said_compares_with_the_one_used_last(charted: Any, depot: Any) -> None:
    shown = charted(
        ("2020-10-01", depot.rounds("Ilse", 9, loads=["?"])),
        ("2026-11-03", depot.rounds("Ilse", 7, loads=["22.5 kg"])),
    )
    (cell,) = shown.rows[0].cells
    assert cell
    assert (cell.best.score, cell.others) == ("9+0", ())


def test_sorted_by_a_benchmark_the_best_stands_first_in_its_own_terms(
    charted: Any, depot: Any
) -> None:
    done = [
        ("2026-11-03", depot.timed("Ilse", "8:31")),
        ("2026-11-03", depot.timed("Bram", "9:00")),
        ("2026-11-03", depot.timed("Noor", "8:00", modification="band row")),
        ("2026-11-04", depot.rounds("Bram", 8)),
    ]
    assert names(charted(*done, sort="Third-Rail")) == ["Ilse", "Bram", "Noor"]
    assert names(charted(*done, sort="turntable")) == ["Bram", "Ilse", "Noor"]
    with pytest.raises(LookupError, match="sort by name, Third Rail, Turntable"):
        charted(*done, sort="fourth rail")


def test_only_who_is_here_is_shown_and_all_of_them(charted: Any, depot: Any) -> None:
    done = [("2026-11-03", depot.rounds("Ilse", 7)), ("2026-11-03", depot.rounds("Bram", 8))]
    assert names(charted(*done, here={"ilse", "noor"})) == ["Ilse", "Noor"]


def sets(*made: tuple[str, str, str], name: str = "ilse", **terms: Any) -> list[Best]:
    """Sets of the squat, each its load, its reps and its day; the one done last first."""
    found = []
    for load, work, day in made:
        worth, moment = load_worth(parse_load(load, "kg").kg), day_moment(day)
        how = Terms(work=work, **terms)
        result = Result(
            *(name, "Back squat", "back squat", day, moment, load), "load", worth, None, how
        )
        found.append(Best(result, 1, moment))
    return sorted(found, key=lambda best: -best.last_moment)


def squat_chart(*of: tuple[str, list[Best]], **how: Any) -> Chart:
    bests = {(name, "back squat"): group for name, group in of}
    return chart(ATHLETES, bests, month=MONTH, **how)


def told(shown: Chart, row: int = 0) -> tuple[str, ...]:
    cell = shown.rows[row].cells[0]
    assert cell
    return (score_words(cell), *small_lines(cell))


def test_a_heavier_triple_is_the_headline_though_the_last_class_did_singles() -> None:
    made = sets(("60 kg", "1 rep", "2026-11-24"), ("70 kg", "3 reps", "2026-10-03"))
    # Brzycki: 70 x 36/34 is 74.1. Who made 70 three times has made more than 60 once.
    assert told(squat_chart(("ilse", made))) == ("70 kg x 3", "about 74", "2026-10-03")


def test_other_numbers_of_reps_are_told_where_they_say_more_than_the_heavier_ones() -> None:
    made = sets(
        ("80 kg", "3 reps", "2026-10-03"),
        ("82.5 kg", "1 rep", "2026-11-10"),
        ("75 kg", "5 reps", "2026-10-10"),
        ("70 kg", "2 reps", "2026-10-17"),
    )
    assert told(squat_chart(("ilse", made))) == (
        "80 kg x 3",
        "about 85",
        "2026-10-03",
        "also 82.5 kg x 1*",
        "also 75 kg x 5",
    )


def test_sets_of_many_reps_and_of_unsaid_ones_have_no_estimate() -> None:
    many = sets(("60 kg", "15 reps", "2026-10-03"))
    assert told(squat_chart(("ilse", many))) == ("60 kg x 15", "2026-10-03")
    unsaid = sets(("60 kg", "?", "2026-10-03"))
    assert told(squat_chart(("ilse", unsaid))) == ("60 kg", "2026-10-03")


def test_a_load_that_two_shared_says_nothing_of_what_one_lifts() -> None:
    shared = sets(("120 kg", "5 reps", "2026-11-03"), team=2)
    alone = sets(("70 kg", "3 reps", "2026-10-03"))
    shown = squat_chart(("bram", shared), ("ilse", [*shared, *alone]), sort="back squat")
    assert names(shown) == ["Ilse", "Bram"]
    assert told(shown, 0) == (
        *("70 kg x 3", "about 74", "2026-10-03", "also 120 kg x 5*, team of 2"),
    )
    assert told(shown, 1) == ("120 kg x 5*", "2026-11-03", "team of 2")


def test_a_lift_is_sorted_by_the_estimated_maximum_in_kilograms() -> None:
    shown = squat_chart(
        ("bram", sets(("80 kg", "1 rep", "2026-10-03"), name="bram")),
        ("ilse", sets(("75 kg", "5 reps", "2026-10-03"))),  # 84.4
        ("noor", sets(("180 lb", "2 reps", "2026-10-03"), name="noor")),  # 185.1 lb: 84.0 kg
        sort="Back squat",
    )
    assert names(shown) == ["Ilse", "Noor", "Bram"]
    assert told(shown, 1) == ("180 lb x 2", "about 185", "2026-10-03")
    assert legend(shown)[-1] == "Sorted by Back squat: highest estimated maximum first"


def test_an_easier_option_stands_beside_however_heavy_it_was() -> None:
    easier = sets(("95 kg", "3 reps", "2026-11-24"), modification="to a box")
    as_written = sets(("70 kg", "3 reps", "2026-10-03"))
    shown = squat_chart(("ilse", [*easier, *as_written]), ("bram", easier))
    assert told(shown, 1) == (
        *("70 kg x 3", "about 74", "2026-10-03", "also 95 kg x 3* with to a box"),
    )
    assert told(shown, 0) == ("~95 kg x 3*", "about 101", "2026-11-24", "to a box")


def test_what_is_new_is_what_was_set_in_the_calendar_month_of_the_chart() -> None:
    days = ("2026-10-31", "2026-11-01", "2026-11-30", "2026-12-01", "2025-11-15")
    new = []
    for day in days:
        cell = squat_chart(("ilse", sets(("70 kg", "3 reps", day)))).rows[0].cells[0]
        assert cell
        new.append(cell.new)
    assert new == [False, True, True, False, False]


def test_the_legend_says_what_each_mark_means_that_stands_in_the_chart() -> None:
    new = squat_chart(("ilse", sets(("70 kg", "3 reps", "2026-11-03"))))
    assert "* set this month, in November 2026" in legend(new)
    old = squat_chart(("ilse", sets(("70 kg", "1 rep", "2026-10-03"))))
    assert legend(old) == ()


def test_benchmarks_are_called_as_the_club_wrote_them_last(depot: Any) -> None:
    pieces = (
        ("2026-10-03", depot.piece("Hard part", "rounds-in-time", (), benchmark="third rail")),
        ("2026-11-03", depot.piece("Finisher", "rounds-in-time", (), benchmark="Third  Rail")),
        ("2026-11-03", depot.piece("Night Line", "rounds-in-time", (), benchmark="night-line")),
        ("2026-11-03", depot.piece("McLeod", "rounds-in-time", (), benchmark="mcleod")),
        ("2026-11-03", depot.piece("\N{BEAR FACE}", "interval", (), benchmark="\N{FOX FACE}")),
    )
    bests: dict[tuple[str, str], list[Best]] = {}
    for day, piece in pieces:
        done = {**piece, "lanes": [depot.rounds("Ilse", 7)]}
        result = read_class(depot.document(day, done)).entries[0].result
        bests.setdefault(("ilse", result.benchmark), []).append(Best(result, 1, result.moment))
    shown = chart(ATHLETES, bests, month=MONTH)
    assert [one.heading for one in shown.columns] == [
        *("McLeod", "Night Line", "Third Rail", "\N{FOX FACE}"),
    ]


class _InCells(HTMLParser):
    """The words in the table of a page, in the order of their lines."""

    def __init__(self, page: bytes) -> None:
        super().__init__()
        self.words: Counter[str] = Counter()
        self._within = 0
        self.feed(page.decode())
        self.close()

    def handle_starttag(self, tag: str, attrs: object) -> None:
        self._within += tag in ("th", "td")

    def handle_endtag(self, tag: str) -> None:
        self._within -= tag in ("th", "td")

    def handle_data(self, data: str) -> None:
        if self._within:
            self.words.update(data.split())


def test_the_terminal_says_every_word_of_the_printed_chart_and_no_other(depot: Any) -> None:
    done = depot.rounds("Ilse", 7, modification="step-up", loads=["22.5 kg"])
    result = read_class(depot.document("2026-11-03", depot.turntable(done))).entries[0].result
    made = sets(("82.5 kg", "1 rep", "2026-11-10"), ("80 kg", "3 reps", "2026-10-03"))
    bests = {("ilse", "back squat"): made, ("ilse", "turntable"): [Best(result, 1, 1)]}
    shown = chart(ATHLETES, bests, month=MONTH, sort="Back squat")
    page = chart_html(shown, "Line 0 Depot", date(2026, 11, 30))
    lines = chart_lines(shown, 100)
    table, below = lines[: lines.index("")], lines[lines.index("") + 1 :]
    printed = _InCells(page).words - Counter(["Name"])
    assert Counter(word for line in table for word in line.split()) == printed
    assert below == legend(shown)
    for line in below:
        assert line in page.decode()


def test_it_is_broken_into_blocks_that_fit_the_window(depot: Any) -> None:
    bests = {}
    for number in range(60):
        lane = depot.rounds("Ilse", 7, number % 27)
        piece = depot.piece(f"Line {number}", "rounds-in-time", [lane])
        result = read_class(depot.document("2026-11-03", piece)).entries[0].result
        bests[("ilse", result.benchmark)] = [Best(result, 1, 1)]
    lines = chart_lines(chart(ATHLETES, bests, month=MONTH), 100)
    assert max(map(len, lines)) <= 100
    assert sum(line.count("*") for line in lines) == 60 + 1  # and the legend
    assert sum(line.count("2026-11-03") for line in lines) == 60


def test_nothing_in_a_name_reaches_the_terminal_or_runs_in_a_spreadsheet(depot: Any) -> None:
    lane = depot.rounds("Ilse", 7, modification="=cmd()")
    result = read_class(depot.document("2026-11-03", depot.turntable(lane))).entries[0].result
    mean = Athlete("ilse", "+Il\x1b[31mse", "i", (), 1, "", "")
    shown = chart([mean], {("ilse", "turntable"): [Best(result, 1, 1)]}, month=MONTH)
    assert "\x1b" not in "\n".join(chart_lines(shown, 100))
    assert b"\n'+Il" in chart_csv(shown)
    assert b",'=cmd()," in chart_csv(shown)


def wide_chart(depot: Any, benchmarks: int, people: int) -> Chart:
    """Some people's bests on some benchmarks, two of them under terms of many words."""
    athletes = tuple(
        Athlete(f"id{number}", f"Saoirse-Marie {number}", "s", (), 3, "", "")
        for number in range(people)
    )
    bests = {}
    for number in range(benchmarks):
        terms = {"modification": "step-up, seated press"} if number % 7 == 3 else {}
        piece = depot.piece(
            f"Line {number:02}", "rounds-in-time", [depot.rounds("Ilse", 7, number % 27, **terms)]
        )
        result = read_class(depot.document("2026-11-03", piece)).entries[0].result
        for athlete in athletes:
            bests[(athlete.id, result.benchmark)] = [Best(result, 1, 1)]
    return chart(athletes, bests, month=MONTH)


def test_every_benchmark_stands_on_one_sheet_in_order_and_larger_than_its_heading(
    depot: Any,
) -> None:
    for benchmarks, people in ((1, 1), (5, 12), (14, 12), (40, 26)):
        layout = chart_layout(wide_chart(depot, benchmarks, people))
        assert sum(layout.groups, ()) == tuple(range(benchmarks))
        assert layout.small < layout.heading < layout.of_a_name < layout.size
    assert chart_layout(wide_chart(depot, 3, 12)).landscape is False


@needs_a_printer
@pytest.mark.parametrize(("benchmarks", "people"), [(5, 12), (14, 12), (30, 26)])
def test_names_stand_again_on_each_sheet_and_nothing_is_cut(
    depot: Any, tmp_path: Path, benchmarks: int, people: int
) -> None:
    shown = wide_chart(depot, benchmarks, people)
    sheets = Printed(chart_html(shown, "Line 0 Depot", date(2026, 11, 30)), tmp_path).sheets
    layout = chart_layout(shown)
    assert len(sheets) == sheet_count(shown, layout)
    everywhere = "".join(sheets)
    assert "…" not in everywhere
    for place, column in enumerate(shown.columns):
        assert everywhere.count(column.heading.split()[-1]) >= 1
        best = shown.rows[0].cells[place]
        assert best
        assert everywhere.count(best.best.score) >= people
    assert everywhere.count("2026-11-03") == benchmarks * people
    for row in shown.rows:
        assert everywhere.count(f"{row.name} ") == len(layout.groups)


def test_what_somebody_works_towards_stands_under_their_best(charted: Any, depot: Any) -> None:
    """How far it is, where the last scores point, and what both mean; nobody else's changes."""
    terms = Terms(work="16:00")
    aim = Goal(
        *("ilse", "turntable", "Turntable", "9+0", "rounds", rounds_worth(9, 0)),
        *(terms, "2026-11-01", "2027-03-01"),
    )
    lanes = [("2026-11-03", depot.rounds("Ilse", 7)), ("2026-11-03", depot.rounds("Bram", 6))]
    plain = charted(*lanes)
    best = next(row.cells[0] for row in plain.rows if row.name == "Ilse").best
    trend = ScoreTrend(6, 1, 60, 30.0, 190.0, 0.5)
    pointed = PointedTo(trend, date(2027, 3, 1), ahead=True, shown="8+20")
    shown = charted(*lanes, goals={"ilse": [GoalNow(GoalStands(aim, best), pointed, 243.0)]})
    bram, ilse = (row.cells[0] for row in shown.rows)
    assert small_lines(ilse)[-2:] == (
        "goal 9+0 by 2027-03-01: 2 rounds to go",
        "points to 8+20 on 2027-03-01",
    )
    assert small_lines(bram) == small_lines(plain.rows[0].cells[0])
    words = " ".join(legend(shown))
    assert "where the last scores point, not a promise" in words
    assert "goal" not in " ".join(legend(plain))
    assert b"points to 8+20" in chart_html(shown, "Depot", date(2026, 11, 24))
