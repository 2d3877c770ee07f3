"""A clock without a plan over the board: asked for, typed, scored, run, and back to the plan."""

from typing import Any

import pytest

SIZES = [(60, 18), (120, 36), (213, 60)]


def words(text: str) -> str:
    return " ".join(text.split())


async def asked(coach: Any, line: str) -> None:
    named = {" ": "space", "/": "slash", ":": "colon"}
    await coach.press("ctrl+g", *(named.get(sign, sign) for sign in line))


@pytest.mark.parametrize("size", SIZES)
async def test_one_key_one_line_and_it_counts_in_with_the_plan_after_it(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size, segment=1) as coach:
        await asked(coach, "rounds 3")
        seen = coach.seen()
        assert "rounds 12   for time 15   8 x 20/10   down 5" in seen
        assert "rounds in 3:00" in seen
        assert "[rounds]  reps   load   not scored" in seen
        assert "tab: the score" in seen
        await coach.press("enter")
        assert coach.live.phase == "count-in"
        assert [lane.name for lane in coach.live.record.sheet.lanes] == ["Ilse", "Bram", "Noor"]
        await coach.wind(10)
        await coach.press("n")
        await coach.wind(190)
        await coach.press("enter")
        assert coach.live.phase == "board"
        assert coach.live.record.segment.name == "Turntable"
        assert "segment 3 of 3" in words(coach.seen())


async def test_its_letters_are_typed_and_tap_nobody_and_escape_brings_the_board_back(
    open_class: Any,
) -> None:
    async with open_class(segment=1) as coach:
        before = coach.live.record
        await asked(coach, "inb")
        assert coach.screen.overlays.clock.text == "inb"
        await coach.press("escape", "tab")
        assert not coach.screen.overlays.clock.display
        assert coach.live.record == before
        await coach.press("ctrl+g")
        assert coach.screen.overlays.clock.text == "", "it is asked anew"


async def test_what_it_can_be_scored_by_is_chosen_by_tab(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await asked(coach, "8 x 20/10")
        await coach.press("tab", "enter")
        assert coach.live.record.sheet.piece.interval_rule == "total"


async def test_a_line_that_cant_be_read_says_what_to_write_and_runs_nothing(
    open_class: Any,
) -> None:
    async with open_class(size=(60, 18)) as coach:
        await asked(coach, "runds 12")
        await coach.press("enter")
        assert '"runds 12" is no clock: write "rounds 12"' in coach.seen()
        assert coach.live.phase == "board"
        assert coach.screen.overlays.clock.display


@pytest.mark.parametrize(
    ("seconds", "says"),
    [
        (3, "the count-in runs: space calls it off, then ctrl+g starts another clock"),
        (60, "the clock runs: space holds it, enter ends it, then ctrl+g starts another"),
        (500, "this segment is over: enter goes on, then ctrl+g starts another clock"),
    ],
)
async def test_while_something_runs_it_says_what_to_do_first(
    open_class: Any, seconds: int, says: str
) -> None:
    async with open_class(size=(213, 60)) as coach:
        await coach.press("enter")
        await coach.wind(seconds)
        await coach.press("ctrl+g")
        assert says in words(coach.foot())
        assert not coach.screen.overlays.clock.display


async def test_called_off_it_can_be_asked_for_anew_and_the_wrong_one_is_gone(
    open_class: Any,
) -> None:
    async with open_class(segment=1) as coach:
        await asked(coach, "rounds 30")
        await coach.press("enter")
        await coach.wind(2)
        await coach.press("space")
        assert coach.live.record.segment.name == "Rounds 30:00"
        await asked(coach, "rounds 3")
        await coach.press("enter")
        names = [coach.live.record.plan.segment[n].name for n in coach.live.record.in_order]
        assert names == ["Warm-up", "Rounds 3:00", "Turntable"]


async def test_after_the_end_the_last_screen_takes_it_too(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.start()
        await coach.wind(970)
        for _ in range(4):
            await coach.press("enter")
            await coach.wind(2)
        assert coach.live.phase == "closed"
        assert "ctrl+g" in coach.foot()
        await asked(coach, "down 1")
        await coach.press("enter")
        assert coach.live.phase == "count-in"
        await coach.wind(75)
        await coach.press("enter")
        assert coach.live.phase == "closed"


async def test_the_help_of_the_board_names_it(open_class: Any) -> None:
    async with open_class(size=(213, 60)) as coach:
        assert "ctrl+g a clock" in coach.foot()
        await coach.press("question_mark")
        assert "go: a clock without a plan" in words(coach.seen())
