"""What the clock of a class says, and how it is set right."""

from typing import Any

from classclock.screens.live.foot.time_line import TimeLine
from tests.screens.live.seen_in_class import content

INTERVALS = """
title = "Sandbox"
[[segment]]
name = "Sandbox"
format = "interval"
repeat = 3
steps = [{ work = "0:20" }, { rest = "0:10", label = "breathe" }]
score = "total"
"""


async def test_held_is_unmistakable_and_says_how_to_go_on(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("space")
        await coach.wind(30)
        assert (content(coach).emphasis, content(coach).clock) == ("HELD", "15:00")
        assert "space resumes" in coach.seen()
        await coach.press("space")
        await coach.wind(2)
        assert (content(coach).emphasis, content(coach).clock) == ("", "14:58")


async def test_an_interval_says_which_it_is_and_what_is_left_in_all(open_class: Any) -> None:
    async with open_class(INTERVALS) as coach:
        await coach.start()
        await coach.wind(5)
        now = content(coach)
        assert (now.clock, now.emphasis, now.progress) == ("0:15", "WORK", "1 of 3")
        assert now.total_left == "1:15 left in all"
        await coach.wind(15)
        await coach.wind(5)
        assert (content(coach).clock, content(coach).emphasis) == ("0:05", "BREATHE")


async def test_a_cue_has_its_word_beside_the_clock_for_two_seconds(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(7 * 60 + 59)
        await coach.wind(1)
        assert content(coach).emphasis == "HALFWAY"
        await coach.wind(2.1)
        assert content(coach).emphasis == ""


async def test_the_end_is_shown_steadily_and_not_for_longer_than_two_seconds(
    open_class: Any,
) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(8 * 60)
        shown = []
        for _ in range(12):
            shown.append(content(coach).inverted)
            await coach.wind(0.25)
        assert shown == [True] * 8 + [False] * 4  # one change: nothing flashes


async def test_the_minutes_over_are_always_in_view(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        assert "18:20  ends 19:00" in coach.foot()
        await coach.wind(43 * 60)
        assert coach.screen.query_one(TimeLine).words.over
        assert "19:03  3 min over" in coach.foot()


async def test_after_a_restart_the_clock_is_checked_and_set_by_keys(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        coach.session.check_clock = True
        await coach.press("right")
        await coach.wind(0.1)
        assert "the clock was set" in coach.foot()
        assert content(coach).clock == "14:59"
        await coach.reads("check the clock: left, right set it by a second")
        await coach.press("enter")
        assert coach.live.phase == "running"
        assert "check the clock" not in coach.seen()
