"""A class on its screen, from the board over the wall and the scores to the end."""

from typing import Any

from tests.screens.live.seen_in_class import content, tallies, view


async def test_enter_counts_in_and_go_shows_the_wall(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        assert view(coach) == "board"
        await coach.press("enter")
        assert (view(coach), content(coach).clock) == ("wall", "10")
        assert content(coach).emphasis == "GET READY"
        await coach.wind(7.5)
        assert content(coach).clock == "3"
        await coach.wind(2.5)
        assert content(coach).clock == "16:00"
        assert tallies(coach) == {"Ilse": "0", "Bram": "0", "Noor": "0"}


async def test_a_letter_is_a_round_on_that_lane(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        await coach.press("n")
        assert tallies(coach) == {"Ilse": "0", "Bram": "0", "Noor": "1"}
        assert "Noor, round 1, 1:00" in coach.foot()


async def test_the_wall_stays_while_a_late_call_still_counts_then_come_the_scores(
    open_class: Any,
) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(16 * 60)
        assert (view(coach), content(coach).clock) == ("wall", "0:00")
        assert (content(coach).emphasis, content(coach).inverted) == ("TIME", True)
        await coach.wind(2)
        await coach.press("n")
        assert tallies(coach)["Noor"] == "1"
        await coach.wind(1.5)
        assert view(coach) == "settle"


async def test_an_unscored_segment_stays_on_the_wall_until_enter(open_class: Any) -> None:
    async with open_class() as coach:
        await coach.start()
        await coach.wind(9 * 60)
        assert view(coach) == "wall"
        assert content(coach).hint == "enter: next, Turntable"
        await coach.press("enter")
        assert view(coach) == "board"
        assert coach.live.record.chosen.segment == 1


async def test_everybody_in_says_that_it_ends_by_itself(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(60)
        for key in "ibn":
            await coach.press("full_stop", key)
            await coach.wind(0.5)
        assert content(coach).emphasis == "ALL IN"
        assert "enter ends it now" in coach.foot()
        await coach.wind(2)
        await coach.press("enter")
        assert view(coach) == "settle"


async def test_after_the_last_segment_comes_the_end_of_the_class(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(17 * 60)
        await coach.press("asterisk", "enter")  # all that is asked stands
        assert view(coach) == "summary"
