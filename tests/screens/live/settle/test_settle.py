"""The settle and the end of a class: what they say, and that it fits every size."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.machine.terminal import Terminal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import LIGHT, SIXTEEN
from classclock.screens.live.end.summary_view import draw_summary
from classclock.screens.live.settle.settle_view import draw_settle
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane
from classclock.tally.record import ClassRecord
from classclock.units.loads import Load
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
        """Enter, and once more where somebody is unsettled."""
        if self.live.do(cmd.Next()).refused:
            self.do(cmd.Next())
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
    assert page.hint == "12n gives odd reps, n being the key: ask Bram"


def test_once_all_are_complete_enter_settles_and_goes_on(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 2).over().do(cmd.SetNumber("Ilse", Decimal(0)))
    page = settle_page(class_.live, None)
    assert (page.hint, page.asks) == ("enter: settle and go on", False)


def test_a_doubtful_round_is_said_in_words(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 4).rounds("Ilse", 1, every=12).over()
    page = settle_page(class_.do(cmd.SetNumber("Ilse", Decimal(0))).live, "Ilse")
    assert page.rows[0].notes == ("? round 5 in 0:12 is very short",)
    assert page.hint == "look at Ilse; enter twice settles it as it stands"
    assert page.detail == "Ilse, 5+0: ? round 5 in 0:12 is very short"


def test_a_load_far_above_earlier_ones_is_no_news_for_the_room(
    coach: Callable[..., Coach],
) -> None:
    class_ = coach("Ilse")
    lane = Lane("Ilse", "Ilse", "i", ("Ilse",), heaviest=Load(Decimal(80), "kg"))
    class_.live.record_event(ev.SegmentStarted(0, 1, 1, 10_000, (lane,)))
    class_.wind(60).do(cmd.SetNumber("Ilse", Decimal(825))).over()
    (shown,) = settle_page(class_.live, None, mirrored=True).rows
    (told,) = settle_page(class_.live, None, mirrored=False).rows
    assert shown.notes == ("? a load: look again",)
    assert told.notes == ("? 825 kg is far above earlier",)


def test_a_correction_s_reason_is_not_for_the_room(coach: Callable[..., Coach]) -> None:
    class_ = coach("Ilse").start().rounds("Ilse", 2).over()
    class_.do(cmd.Correct("Ilse", "3+4", "left knee, sat out"))
    (shown,) = settle_page(class_.live, None, mirrored=True).rows
    (told,) = settle_page(class_.live, None, mirrored=False).rows
    assert shown.notes == ("corrected",)
    assert told.notes == ("corrected: left knee, sat out",)


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
    drawn = draw_settle(settle_page(class_.live, None), 60, 16, Look())
    assert "[red]Odell[/red]" in plain_text(drawn)
    escaped = settle_page(coach("\x1b[2JBram").start().over().live, None)
    assert escaped.rows[0].name == "\\x1b[2JBram"


@pytest.mark.parametrize("size", [(120, 34), (213, 58)])
@pytest.mark.parametrize("count", [4, 8])
def test_names_and_scores_of_a_small_class_are_drawn_large(
    size: tuple[int, int], count: int, coach: Callable[..., Coach]
) -> None:
    people = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri", "Saoirse", "Odell")[:count]
    class_ = coach(*people).start().rounds("Ilse", 3).over()
    drawn = plain_text(draw_settle(settle_page(class_.live, None), *size, Look()))
    # Large letters are drawn in blocks: as terminal text none of them is found.
    table = drawn.splitlines()[1:-2]
    assert not any(name in row for name in people for row in table)


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
