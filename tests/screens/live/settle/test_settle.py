"""The settle and the end of a class: what they say, and that it fits every size."""

import re
from collections.abc import Callable
from decimal import Decimal
from itertools import product

import pytest

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.machine.terminal import Terminal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.end.summary_view import draw_summary
from classclock.screens.live.settle.settle_view import draw_settle, laid_out
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane, Person
from classclock.tally.record import ClassRecord
from classclock.units.loads import Load
from classclock.wall.colours.theme import LIGHT
from classclock.wall.notices.pending_words import pending_words
from classclock.wall.seen.page_turning import PageOn
from classclock.wall.settle_content import SettlePage, settle_page
from classclock.wall.summary_content import summary

PLAN = """
title = "Turntable Tuesday"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "10:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["step-up"]
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
[[segment]]
name = "Front squat"
format = "countdown"
time = "10:00"
score = "load"
"""
NAMES = ("Ilse", "Bram", "Noor")
HOSTILE = ("[red]Odell[/red]", "\x1b[31mBram", "🦊 Uri", "\u202eleon", "טל", "M" * 60)
LETTERS = 3
LONG_NAMES = tuple(f"Wilhelmina Vries {number}" for number in range(25))
"""In the least window in terminal text, as their scores are."""
"""Rows from which letters are drawn, and not terminal text."""
SAVED = ("/club/results/2026-03-03-1830-turntable.json", "/club/results/x.csv")


class Coach:
    """A class rehearsed by hand."""

    def __init__(self, names: tuple[str, ...]) -> None:
        self.source = WoundSource()
        read, findings = parse_plan(PLAN, "t.toml")
        assert read is not None, findings
        clock = ClassClock(self.source, self.source.now())
        self.live = LiveClass(clock, ClassRecord(read), EventList())
        self.live.record_event(ev.ClassOpened(0, "t", PLAN, "kg", people_named(names), None))

    def wind(self, seconds: int) -> "Coach":
        self.source.jump(seconds * 1000 * MS)
        return self

    def do(self, *commands: cmd.CountCommand | cmd.ClockCommand) -> "Coach":
        for command in commands:
            outcome = self.live.do(command)
            assert not outcome.refused, outcome.text
        return self

    def start(self) -> "Coach":
        return self.do(cmd.Start()).wind(10)

    def rounds(self, name: str, count: int, every: int = 60) -> "Coach":
        for _ in range(count):
            self.wind(every).do(cmd.Tap(name))
        return self

    def over(self) -> "Coach":
        return self.wind(700)

    def settle(self) -> "Coach":
        """Enter for each that is asked, and once more."""
        while not any(isinstance(one, ev.Settled) for one in self.live.do(cmd.Next()).events):
            pass
        return self


@pytest.fixture
def coach() -> Callable[..., Coach]:
    def begin(*names: str) -> Coach:
        return Coach(names or NAMES)

    return begin


def names(page: SettlePage) -> list[str]:
    return [row.name for row in page.rows]


def test_whoever_is_unsettled_stands_first_then_by_rank(coach: Callable[..., Coach]) -> None:
    class_ = coach().start().rounds("Ilse", 4).rounds("Bram", 1).over()
    class_.do(cmd.SetNumber("Ilse", Decimal(3)), cmd.SetNumber("Noor", Decimal(5)))
    page = settle_page(class_.live, None)
    assert names(page) == ["Bram", "Ilse", "Noor"]
    assert [row.score for row in page.rows] == ["1+?", "4+3", "0+5"]
    assert [row.asked for row in page.rows] == ["odd reps?", "", ""]
    assert page.question == "Bram: odd reps?"
    assert page.hint == "12 enter: 12 odd reps  enter: none"


def test_once_all_are_complete_enter_settles_and_goes_on(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 2).over().do(cmd.SetNumber("Ilse", Decimal(0)))
    page = settle_page(class_.live, None)
    assert (page.hint, page.question) == ("enter: settle and go on", "")


def test_a_doubtful_round_is_said_in_words(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 4).rounds("Ilse", 1, every=12).over()
    page = settle_page(class_.do(cmd.SetNumber("Ilse", Decimal(0))).live, "Ilse")
    assert page.rows[0].asked == '" round 5 came fast: two taps?'
    assert page.question == 'Ilse: " round 5 came fast: two taps?'
    assert page.hint == "enter: it stands  - enter: take it out"
    assert page.detail == 'Ilse, 5+0: " round 5 came fast: two taps?'
    assert settle_page(class_.live, None).detail == "round 5 in 0:12 is very short"


def test_a_load_far_above_earlier_ones_is_no_news_for_the_room(
    coach: Callable[..., Coach],
) -> None:
    class_ = coach("Ilse")
    lane = Lane("Ilse", "Ilse", "i", ("Ilse",), heaviest=Load(Decimal(80), "kg"))
    class_.live.record_event(ev.SegmentStarted(0, 1, 1, 10_000, (lane,)))
    class_.wind(60).do(cmd.SetNumber("Ilse", Decimal(825))).over()
    shown = settle_page(class_.live, None, mirrored=True)
    told = settle_page(class_.live, None, mirrored=False)
    assert shown.question == told.question == "Ilse: ^ 825 kg: right?"
    assert (shown.detail, told.detail) == ("", "825 kg is far above earlier")


def test_a_correction_s_reason_is_not_for_the_room(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 2).over()
    class_.do(cmd.Correct("Ilse", "3+4", "left knee, sat out"))
    (shown,) = settle_page(class_.live, None, mirrored=True).rows
    (told,) = settle_page(class_.live, None, mirrored=False).rows
    assert shown.notes == ("# corrected",)
    assert told.notes == ("# corrected: left knee, sat out",)


def test_that_somebody_never_came_is_not_for_the_room(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse", "Bram").start().do(cmd.StopLane("Bram")).over()
    absent = next(row for row in settle_page(class_.live, None).rows if row.name == "Bram")
    assert (absent.score, absent.notes, absent.rank) == ("-", (), "")


def test_provisional_or_settled_is_said_with_the_file_s_name(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 2).over()
    assert settle_page(class_.live, None).state == "provisional, not saved yet"
    name = "saved as 2026-03-03-1830-turntable.json"
    assert settle_page(class_.live, None, SAVED).state == f"provisional, {name}"
    class_.settle().do(cmd.GoTo(-1))
    page = settle_page(class_.live, None, SAVED)
    assert page.state == f"settled, {name}"
    assert page.rows[0].score == "2+0"


def test_the_summary_has_every_piece_with_ranks_and_leaves_out_who_was_not_there(
    coach: Callable[..., Coach],
) -> None:
    class_ = coach().start().rounds("Ilse", 4).rounds("Bram", 1).do(cmd.StopLane("Noor")).over()
    class_.settle().start().do(cmd.SetNumber("Bram", Decimal(85))).over().settle()
    page = summary(class_.live, SAVED)
    assert [piece.name for piece in page.pieces] == ["Turntable", "Front squat"]
    first = page.pieces[0].rows
    assert [(row.rank, row.name, row.score) for row in first] == [
        ("1", "Ilse", "4+0"),
        ("2", "Bram", "1+0"),
    ]
    assert page.pieces[1].rows[0].score == "85 kg"
    assert SAVED[0] in page.saved


def test_a_class_without_scores_ends_in_words_too(
    coach: Callable[..., Coach], check_filled: Callable[..., None]
) -> None:
    page = summary(coach().live, ())
    assert page.saved == "nothing was scored"
    check_filled(draw_summary(page, 80, 23, Look()), 80, 23)


@pytest.mark.parametrize("size", [(60, 16), (80, 22), (120, 34), (213, 58), (240, 68)])
@pytest.mark.parametrize("count", [1, 4, 8, 9, 12, 26])
def test_settle_and_summary_fill_every_size_whatever_the_names(
    size: tuple[int, int],
    count: int,
    coach: Callable[..., Coach],
    check_filled: Callable[..., None],
) -> None:
    people = tuple(f"{HOSTILE[n % len(HOSTILE)]} {n}" for n in range(count))
    class_ = coach(*people).start().over()
    page = settle_page(class_.live, people[0], SAVED)
    drawn = draw_settle(page, *size, Look())
    check_filled(drawn, *size)
    check_filled(draw_summary(summary(class_.live, SAVED), *size, Look()), *size)


def test_names_are_never_read_as_markup(coach: Callable[..., Coach]) -> None:
    class_ = coach("[red]Odell[/red]").start().over()
    drawn = laid_out(settle_page(class_.live, None), 60, 16, Look())
    assert drawn.spots["name", 0].lines == ("[red]Odell[/red]",)
    escaped = settle_page(coach("\x1b[2JBram").start().over().live, None)
    assert escaped.rows[0].name == "\\x1b[2JBram"


@pytest.mark.parametrize(
    ("size", "count"),
    [((60, 17), 4), ((60, 17), 8), *product([(120, 35), (213, 59)], [4, 12, 26])],
)
def test_names_and_scores_are_drawn_large_on_as_many_pages_as_that_takes(
    size: tuple[int, int], count: int, coach: Callable[..., Coach]
) -> None:
    people = (*("Ilse", "Bram", "Noor", "Piet"), *(f"Uri {n}" for n in range(22)))[:count]
    class_ = coach(*people).start().rounds("Ilse", 3).over()
    laid = laid_out(settle_page(class_.live, None), *size, Look())
    assert min(laid.sizes[what] for what in ("key", "name", "score")) >= LETTERS
    shown = [name for spots in laid.pages for name in spots if name[0] == "name"]
    assert shown == [("name", number) for number in range(count)]


@pytest.mark.parametrize("size", [(60, 17), (80, 23), (120, 35), (213, 59)])
@pytest.mark.parametrize("others", [("Ilse", "Bram", "Wilhelmina"), LONG_NAMES])
def test_no_name_touches_its_score(
    size: tuple[int, int], others: tuple[str, ...], coach: Callable[..., Coach]
) -> None:
    people = ("Nadia", *others)
    class_ = coach(*people).start().rounds("Nadia", 6).over()
    class_.do(cmd.SetNumber("Nadia", Decimal(12)))
    laid = laid_out(settle_page(class_.live, None), *size, Look())
    for spots in laid.pages:
        for name in (name for name in spots if name[0] == "name"):
            box, score = spots[name].box, spots["score", name[1]].box
            assert box.y + box.height <= score.y or box.x + box.width < score.x


@pytest.mark.parametrize(
    "look",
    [
        Look(LIGHT),
        Look(SIXTEEN, Terminal(16)),
        Look(SIXTEEN, Terminal(16, None)),
    ],
    ids=["light", "sixteen colours", "ASCII only"],
)
@pytest.mark.parametrize("count", [3, 12])
def test_the_settle_can_be_drawn_in_every_terminal(
    look: Look, count: int, coach: Callable[..., Coach], check_filled: Callable[..., None]
) -> None:
    class_ = coach(*(f"Ilse {n}" for n in range(count))).start().over()
    check_filled(draw_settle(settle_page(class_.live, None), 120, 34, look), 120, 34)
    check_filled(draw_summary(summary(class_.live, SAVED), 120, 34, look), 120, 34)


@pytest.mark.parametrize("size", [(60, 17), (120, 35), (213, 59)])
@pytest.mark.parametrize("count", [1, 8, 20, 26])
def test_what_is_asked_first_is_drawn_large_at_every_size(
    size: tuple[int, int], count: int, coach: Callable[..., Coach]
) -> None:
    people = ("Maximiliana", *(f"Annelies S{number}" for number in range(1, count)))
    class_ = coach(*people).start().rounds("Maximiliana", 4).rounds("Maximiliana", 1, every=12)
    for asked in ("odd reps?", "round 5 came fast: two taps?"):
        page = settle_page(class_.over().live, None)
        assert page.question.startswith("Maximiliana: ")
        assert page.question.endswith(asked)
        assert laid_out(page, *size, Look()).sizes["question"] >= LETTERS
        class_.do(cmd.SetNumber("Maximiliana", Decimal(0)))


def test_of_a_load_that_is_kept_off_the_wall_no_number_is_asked(
    coach: Callable[..., Coach],
) -> None:
    class_ = coach("Ilse")
    shy = Person("Ilse", "Ilse", "i", marks=("off the wall",))
    class_.live.record_event(ev.PersonChanged(0, shy))
    lane = Lane("Ilse", "Ilse", "i", ("Ilse",), heaviest=Load(Decimal(80), "kg"))
    class_.live.record_event(ev.SegmentStarted(0, 1, 1, 10_000, (lane,)))
    class_.wind(60).do(cmd.SetNumber("Ilse", Decimal(825))).over()
    page = settle_page(class_.live, None)
    assert page.question == "Ilse: ^ a load: right?"
    assert "825" not in str(page)
    assert "825" not in pending_words(class_.live.record, "-1", class_.live.clock.now())


def test_signs_stand_for_what_there_is_no_room_to_say(coach: Callable[..., Coach]) -> None:
    class_ = coach().start().rounds("Ilse", 2).do(cmd.ChangeOption("Ilse", 1))
    class_.do(cmd.Tap("Bram"), cmd.StopLane("Bram")).over()
    class_.do(cmd.Correct("Noor", "3+4", "asked"))
    rows = {row.name: row for row in settle_page(class_.live, None).rows}
    assert {name: row.signs for name, row in rows.items()} == {
        "Ilse": "?%",
        "Bram": "?)",
        "Noor": "#",
    }
    assert rows["Ilse"].notes == ("% step-up",)
    assert rows["Bram"].notes == (") stopped early",)
    ended = summary(class_.live, SAVED).pieces[0].rows
    assert {row.name: row.signs for row in ended} == {"Ilse": "%", "Bram": ")", "Noor": ""}


def test_who_is_asked_stands_in_the_order_of_the_lanes(coach: Callable[..., Coach]) -> None:
    class_ = coach().start().rounds("Noor", 3).rounds("Ilse", 1).over()
    page = settle_page(class_.live, None)
    assert names(page) == ["Ilse", "Bram", "Noor"]
    assert page.detail == "then Bram: odd reps?; Noor: odd reps?"


def test_signs_are_said_in_words_where_there_is_room(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse", "Bram", "Saoirse", "Noor").start().rounds("Saoirse", 12, every=5)
    class_.do(cmd.ChangeOption("Saoirse", 1)).over()
    for name in ("Ilse", "Bram", "Noor"):
        class_.do(cmd.SetNumber(name, Decimal(5)))
    page = settle_page(class_.live, None)
    assert page.rows[0].signs == "?%"
    narrow, wide = (plain_text(draw_settle(page, *size, Look())) for size in ((60, 35), (160, 35)))
    assert "?%" in narrow
    assert "step-up" not in narrow
    assert "?%" not in wide
    assert "odd reps?; % step-up" in wide


def place(drawn: str) -> str:
    """Which page of how many, as the screen says it."""
    found = re.search(r"(\d+) of (\d+)", drawn)
    return found[0] if found else ""


def test_where_not_all_can_be_read_who_is_asked_or_selected_is_in_view_and_then_pages_turn(
    coach: Callable[..., Coach],
) -> None:
    people = tuple(f"Ilse {number}" for number in range(20))
    class_ = coach(*people).start().rounds(people[7], 2).over()

    def seen(selected: str | None = None, on: PageOn | None = None) -> str:
        page = settle_page(class_.live, selected)
        return place(plain_text(draw_settle(page, 80, 23, Look(), on or PageOn())))

    first, count = seen().split(" of ")
    assert (first, int(count) > 2) == ("1", True)
    assert seen(on=PageOn(2)) == f"1 of {count}"  # somebody is asked: they stand first
    assert seen(on=PageOn(2, by_hand=True)) == f"3 of {count}"
    class_.do(cmd.Next(all_stands=True)).do(cmd.GoTo(-1))
    first, count = seen().split(" of ")  # without a question there is room for more
    assert (first, int(count) > 2) == ("1", True)
    assert seen(on=PageOn(2)) == f"3 of {count}"
    shown, count = seen(selected=people[19]).split(" of ")
    assert shown == count
