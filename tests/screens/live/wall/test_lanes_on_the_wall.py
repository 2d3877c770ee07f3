"""What a lane says while the piece runs, format by format."""

from collections.abc import Callable
from decimal import Decimal

from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.clock.class_clock import ClassClock
from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.recorder import EventList
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.look import Look
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.tally import commands as cmd
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.record import ClassRecord
from classclock.wall.lane_bars import Boxes, Ribbon, Share
from classclock.wall.lane_content import LaneContent, LaneContents, ordinal
from tests.screens.live.wall.walls import lane_layout_for

STATIONS = """
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["step-up"]
  [[segment.station]]
  movement = "squat"
  reps = 12
"""
ROUNDS = f"""
title = "t"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "10:00"
{STATIONS}
"""
CAPPED = f"""
title = "t"
[[segment]]
name = "Third Rail"
format = "capped-for-time"
cap = "10:00"
rounds = 3
{STATIONS}
"""
INTERVALS = """
title = "t"
[[segment]]
name = "Sandbox"
format = "interval"
repeat = 4
steps = [{ work = "0:20" }, { rest = "0:10" }]
score = "lowest"
"""
LOADS = """
title = "t"
[[segment]]
name = "Front squat"
format = "countdown"
time = "10:00"
score = "load"
"""


class Class:
    def __init__(self, plan: str) -> None:
        read, findings = parse_plan(plan, "t.toml")
        assert read is not None, findings
        self.source = WoundSource()
        clock = ClassClock(self.source, self.source.now())
        self.live = LiveClass(clock, ClassRecord(read), EventList())
        people = people_named(("Ilse", "Bram", "Noor"))
        self.live.record_event(ev.ClassOpened(0, "t", plan, "kg", people, None))
        self.do(cmd.Start()).wind(10)

    def wind(self, seconds: float) -> "Class":
        self.source.jump(round(seconds * 1000) * MS)
        return self

    def do(self, *commands: cmd.CountCommand | cmd.ClockCommand) -> "Class":
        for command in commands:
            outcome = self.live.do(command)
            assert not outcome.refused, outcome.text
        return self

    def lane(self, name: str) -> LaneContent:
        record = self.live.record
        assert record.sheet is not None
        contents = LaneContents().at(
            record.sheet, record.heats(record.chosen), self.live.clock.now(), selected="Noor"
        )
        return next(content for content in contents if content.name == name)


def test_a_tap_makes_a_round_and_a_block_as_long_as_it_took() -> None:
    ilse = Class(ROUNDS).wind(60).do(cmd.Tap("Ilse")).wind(30).lane("Ilse")
    assert ilse.tally == "1"
    assert isinstance(ilse.bar, Ribbon)
    assert [block.end for block in ilse.bar.rounds] == [60_000]
    assert (ilse.bar.reached, ilse.bar.cap) == (90_000, 600_000)
    assert ilse.split == "1:00"


def test_odd_reps_stand_behind_the_rounds_where_there_is_room() -> None:
    noor = Class(ROUNDS).wind(60).do(cmd.Tap("Noor"), cmd.SetNumber("Noor", _reps(7)))
    assert (noor.lane("Noor").tally, noor.lane("Noor").short_tally) == ("1+7", "1")


def test_ranks_are_numbers_and_whoever_has_done_nothing_has_none() -> None:
    it = Class(ROUNDS).wind(60).do(cmd.Tap("Ilse"), cmd.Tap("Noor")).wind(60).do(cmd.Tap("Noor"))
    assert [it.lane(name).rank for name in ("Noor", "Ilse", "Bram")] == ["1st", "2nd", ""]


def test_from_the_second_split_on_a_lane_says_what_it_is_on_for() -> None:
    it = Class(ROUNDS).wind(60).do(cmd.Tap("Ilse"))
    assert it.lane("Ilse").on_for == ""
    assert it.wind(60).do(cmd.Tap("Ilse")).lane("Ilse").on_for.startswith("on for ")


def test_a_round_filled_in_has_no_length_of_its_own_and_comes_before_the_next_tap() -> None:
    it = Class(ROUNDS).wind(90).do(cmd.SetNumber("Noor", None, rounds=2)).wind(30)
    noor = it.do(cmd.Tap("Noor")).lane("Noor")
    assert isinstance(noor.bar, Ribbon)
    assert [block.kind for block in noor.bar.rounds] == ["filled in", "filled in", "counted"]
    ends = [block.end for block in noor.bar.rounds]
    assert ends == sorted(ends)
    assert ends[-1] == 120_000


def test_a_round_far_too_short_carries_the_sign_of_doubt() -> None:
    it = Class(ROUNDS)
    for _ in range(3):
        it.wind(60).do(cmd.Tap("Ilse"))
    it.wind(10).do(cmd.Tap("Ilse"))
    assert (it.lane("Ilse").sign, it.lane("Ilse").doubtful) == ('"', True)
    assert (it.lane("Noor").sign, it.lane("Noor").doubtful) == ("", False)


def test_a_round_far_too_long_asks_quietly() -> None:
    it = Class(ROUNDS)
    for _ in range(3):
        it.wind(60).do(cmd.Tap("Ilse"))
    it.wind(130).do(cmd.Tap("Ilse"))
    assert (it.lane("Ilse").sign, it.lane("Ilse").doubtful) == ("_", False)


def test_a_change_in_the_middle_shows_on_the_lane_at_once() -> None:
    it = Class(ROUNDS).wind(60)
    assert it.lane("Bram").modification == "as written"
    assert it.do(cmd.ChangeOption("Bram", 1)).lane("Bram").modification == "step-up"


def test_a_capped_piece_shows_the_work_done_as_a_share_of_the_whole() -> None:
    bram = Class(CAPPED).wind(60).do(cmd.Tap("Bram")).lane("Bram")
    assert isinstance(bram.bar, Share)
    assert (bram.bar.done, bram.bar.whole, bram.bar.rounds) == (18, 54, (18, 36, 54))


def test_a_finish_shows_on_the_lane_at_once_as_it_will_be_recorded() -> None:
    it = Class(CAPPED)
    for _ in range(3):
        it.wind(60.2).do(cmd.Tap("Bram"))
    bram = it.lane("Bram")
    assert (bram.tally, bram.on_for, bram.out) == ("3:01", "done", True)
    assert isinstance(bram.bar, Share)
    assert bram.bar.finish == "3:01"


def test_an_interval_piece_shows_a_box_for_each_interval() -> None:
    it = Class(INTERVALS).wind(21).do(cmd.SetNumber("Ilse", _reps(9)))
    ilse = it.lane("Ilse")
    assert ilse.bar == Boxes(("9", None, None, None), current=1)
    assert ilse.tally == "9"
    assert it.wind(10).lane("Ilse").bar == Boxes(("9", None, None, None), current=1)


def test_a_piece_scored_by_load_shows_the_heaviest_made_and_every_attempt() -> None:
    it = Class(LOADS).wind(60).do(cmd.SetNumber("Ilse", _reps(80)), cmd.Miss("Ilse", _reps(85)))
    ilse = it.lane("Ilse")
    assert ilse.tally == "80"
    assert isinstance(ilse.bar, Boxes)
    assert ilse.bar.numbers == ("80", "/85", None)


def test_a_selected_lane_is_marked_so() -> None:
    it = Class(ROUNDS)
    assert it.lane("Noor").selected
    assert not it.lane("Ilse").selected


def test_ordinals_are_said_as_people_say_them() -> None:
    said = [ordinal(rank) for rank in (1, 2, 3, 4, 11, 12, 13, 21, 22)]
    assert said == ["1st", "2nd", "3rd", "4th", "11th", "12th", "13th", "21st", "22nd"]


@settings(deadline=None)  # the first wall of a size is laid out
@given(
    st.sampled_from([(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)]),
    st.integers(1, 26),
    st.text(st.characters(categories=["L", "N", "P", "S"]), min_size=1, max_size=20),
    st.sampled_from(["", "0", "12", "11+26", "8:31", "102.5"]),
)
def test_a_lane_fills_its_place_whatever_it_says(
    check_filled: Callable[[Drawing, int, int], None],
    size: tuple[int, int],
    lanes: int,
    name: str,
    tally: str,
) -> None:
    plan = lane_layout_for(lanes, *size)
    content = LaneContent("k", name, tally, tally, rank="1st", modification=name, sign="~")
    check_filled(draw_lane(content, plan, Look()), plan.width, plan.rows)


def _reps(number: int) -> Decimal:
    return Decimal(number)
