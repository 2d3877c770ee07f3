"""The class fitted to the clock, on the board: a digit takes a way, 0 takes it back."""

from typing import Any

import pytest
from msgspec.structs import replace

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.tally.record import RunKey

PLAIN = Look(SIXTEEN, Terminal(16, None))
SIZES = [(60, 18), (120, 36), (213, 60)]
EVENING = """
title = "Depot Tuesday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 5
steps = [{ work = "2:30" }]
score = "total"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 12
[[segment]]
name = "Cool-down"
format = "countdown"
time = "10:00"
"""
"""47 minutes and ten seconds with its count-ins; the class of these tests ends in 40."""
WARM_UP, SQUAT, TURNTABLE, COOL_DOWN = range(4)


def words(text: str) -> str:
    return " ".join(text.split())


def lines(coach: Any) -> list[str]:
    return [line.strip() for line in coach.seen().splitlines()]


def has_line(coach: Any, begins: str) -> bool:
    return any(line.startswith(begins) for line in lines(coach))


def lengths(coach: Any) -> list[int]:
    return [one.spans()[-1].end // 60_000 for one in coach.live.record.plan.segment]


@pytest.mark.parametrize("size", SIZES)
async def test_a_digit_takes_what_ends_in_time_and_0_takes_it_back(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(EVENING, size=size, look=PLAIN) as coach:
        assert "40 min of the class left, the plan needs 48 min more" in words(coach.seen())
        assert "ctrl+f fits it" in coach.foot()
        await coach.press("ctrl+f")
        shown = lines(coach)
        assert "40 min left, the plan needs 48: 8 min too long" in shown
        assert has_line(coach, "1  Turntable: 8:00 of 16:00 planned")
        assert has_line(coach, "2  Cool-down: leave it out, 10:10 less")
        before = coach.live.record.plan
        await coach.press("1")
        assert lengths(coach) == [8, 12, 8, 10]
        shown = lines(coach)
        assert "40 min left, the plan needs 40: it ends in time" in shown
        assert "0  takes back Turntable, 8:00 of 16:00 planned" in shown
        assert "ctrl+f" not in coach.foot()
        await coach.press("0")
        assert coach.live.record.plan == before
        assert has_line(coach, "1  Turntable: 8:00 of 16:00 planned")
        await coach.press("escape")
        assert not coach.screen.overlays.fitting.display


@pytest.mark.parametrize("size", SIZES)
async def test_every_way_has_its_digit_on_the_screen(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(EVENING, size=size, look=PLAIN) as coach:
        await coach.wind(12 * 60)
        await coach.press("ctrl+f")
        shown = lines(coach)
        ways = coach.screen.overlays.fitting.content.fit.ways
        assert len(ways) == 7
        for number in range(1, len(ways) + 1):
            assert has_line(coach, f"{number}  "), coach.seen()
        assert "a digit takes one, escape leaves it" in shown


async def test_one_after_the_other_where_one_is_not_enough(open_class: Any) -> None:
    async with open_class(EVENING, look=PLAIN) as coach:
        await coach.wind(15 * 60)
        await coach.press("ctrl+f")
        assert "none of these is enough alone: take one, see what then fits" in lines(coach)
        assert has_line(coach, "1  Warm-up: 4:00 of 8:00 planned, 4:00 less; still 19 min too long")
        await coach.press("3")
        await coach.wind(2)
        await coach.press("1", "2")
        taken = list(coach.live.record.fits)
        assert len(taken) == 3
        (zero,) = (line for line in lines(coach) if line.startswith("0  takes back "))
        assert zero.count("; then ") == 2
        await coach.wind(2)
        for left in (2, 1, 0):
            await coach.press("0")
            await coach.wind(2)
            assert list(coach.live.record.fits) == taken[:left]


async def test_a_digit_that_is_held_down_takes_one(open_class: Any) -> None:
    async with open_class(EVENING, look=PLAIN) as coach:
        await coach.wind(15 * 60)
        await coach.press("ctrl+f")
        await coach.press("1")
        for _ in range(30):
            await coach.wind(0.035)
            await coach.press("1")
        assert len(coach.live.record.fits) == 1


async def test_the_one_on_the_board_left_out_gives_way_and_up_goes_back(open_class: Any) -> None:
    async with open_class(EVENING, look=PLAIN, segment=SQUAT) as coach:
        await coach.wind(14 * 60)
        await coach.press("ctrl+f")
        (squat,) = (line for line in lines(coach) if "Front squat: leave it out" in line)
        await coach.press(squat[0])
        assert coach.live.record.chosen == RunKey(TURNTABLE)
        await coach.wind(2)
        await coach.press("escape", "up")
        assert coach.live.record.chosen == RunKey(SQUAT)
        assert "segment 2 of 4, left out" in coach.seen()
        await coach.start()
        assert coach.live.phase == "running"


@pytest.mark.parametrize("size", SIZES)
async def test_the_wall_says_what_was_planned_and_its_clock_is_the_shorter_one(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(EVENING, size=size, look=PLAIN) as coach:
        await coach.press("ctrl+f", "1", "escape")
        for _ in range(2):
            await coach.wind(2)
            await coach.press("down")
        assert "segment 3 of 4, 8:00 of 16:00 planned" in coach.seen()
        await coach.start()
        await coach.wind(30)
        await coach.press("i")
        assert coach.live.record.sheet.timeline.total == 480_000
        assert "8:00 of 16:00 planned" in words(coach.seen())
        await coach.wind(480)
        assert coach.live.phase == "over"
        narrow = size == SIZES[0]
        assert narrow or "8:00 of 16:00 planned" in words(coach.seen()), "the settle has words too"


async def test_enter_starts_though_the_list_is_open_and_a_letter_goes_through(
    open_class: Any,
) -> None:
    async with open_class(EVENING, look=PLAIN, segment=TURNTABLE) as coach:
        await coach.wind(20 * 60)
        await coach.press("ctrl+f")
        assert coach.screen.overlays.fitting.display
        await coach.start()
        assert coach.live.phase == "running"
        assert not coach.screen.overlays.fitting.display
        await coach.press("5", "i")
        assert coach.live.record.sheet.tallies[coach.live.lineup()[0].id].odd == 5
        await coach.press("ctrl+f")
        assert "on the board, before a start" in coach.seen()


async def test_a_class_that_ends_in_time_says_so(open_class: Any) -> None:
    async with open_class(look=PLAIN) as coach:
        assert "ctrl+f" not in coach.foot()
        await coach.press("ctrl+f")
        assert "40 min left, the plan needs 25: it ends in time" in coach.foot()
        assert not coach.screen.overlays.fitting.display


async def test_the_same_key_closes_it_and_a_digit_nobody_has_takes_nothing(
    open_class: Any,
) -> None:
    async with open_class(EVENING, look=PLAIN) as coach:
        await coach.press("ctrl+f", "9", "0")
        assert not coach.live.record.fits
        await coach.press("ctrl+f")
        assert not coach.screen.overlays.fitting.display


async def test_it_follows_the_time_while_it_is_open(open_class: Any) -> None:
    async with open_class(EVENING, look=PLAIN) as coach:
        await coach.press("ctrl+f")
        await coach.wind(60)
        coach.screen.show()
        await coach.pilot.pause()
        assert "39 min left, the plan needs 48: 9 min too long" in lines(coach)


async def test_nothing_makes_sense_any_more_is_said(open_class: Any) -> None:
    async with open_class(EVENING, look=PLAIN, segment=COOL_DOWN) as coach:
        await coach.wind(37 * 60)
        await coach.press("ctrl+f", "1")
        assert lengths(coach)[COOL_DOWN] == 5
        assert "nothing more makes sense" in coach.seen()
        assert "half of what was planned" in words(coach.seen())


async def test_a_class_of_which_nobody_said_when_it_ends_has_nothing_to_fit_it_to(
    open_class: Any,
) -> None:
    async with open_class(EVENING, look=PLAIN) as coach:
        coach.live.record = replace(coach.live.record, ends=None)
        coach.screen.show()
        await coach.pilot.pause()
        assert "ctrl+f" not in coach.foot()
        await coach.press("ctrl+f")
        assert "nobody said when this class ends" in coach.foot()
        assert not coach.screen.overlays.fitting.display
