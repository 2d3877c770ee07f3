"""Keys on the board mean people: what the coach sees of it, and what the room must not."""

from typing import Any

import pytest
from msgspec.structs import replace

from classclock.tally.lane_keys import people_named
from classclock.tally.lineup import MOST_LANES
from classclock.wall.board_content import board_now

PAIRS = """
title = "Turntable Tuesday"

[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "1:00"
teams = 2

  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box", "step-up"]

[[segment]]
name = "Sleeper lift"
format = "countdown"
time = "1:00"
score = "load"
"""
SIZES = [(60, 18), (120, 36)]


@pytest.mark.parametrize("size", SIZES)
async def test_who_has_left_is_gone_from_the_board_at_once_and_is_back_at_once(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(size=size, segment=1) as coach:
        assert "Bram" in names(coach)
        await coach.press(".", "b")
        assert names(coach) == ["Ilse", "Noor"]
        assert "Bram has left" in coach.foot()
        await coach.press("-", "b")
        assert names(coach) == ["Ilse", "Bram", "Noor"]
        await coach.reads("Bram is back")


def names(coach: Any) -> list[str]:
    return [lane.name for lane in board_now(coach.session).lanes]


async def test_each_of_a_pair_has_a_letter_on_the_board(open_class: Any) -> None:
    async with open_class(PAIRS, names=("Pavel", "Tom", "Ilse")) as coach:
        assert names(coach) == ["Pavel + Tom (T)", "Ilse"]
        await coach.press(".", "p")
        assert names(coach) == ["Tom", "Ilse"]
        assert [lane.key for lane in board_now(coach.session).lanes] == ["T", "I"]


async def test_whoever_left_has_no_lane_on_the_wall_and_no_row_in_the_scores(
    open_class: Any,
) -> None:
    async with open_class(PAIRS, names=("Pavel", "Tom", "Ilse")) as coach:
        await coach.press(".", "i")
        await coach.start()
        await coach.wind(30)
        await coach.press("p")
        assert "Ilse" not in coach.seen()
        await coach.wind(40)
        assert "Ilse" not in coach.seen()
        (piece,) = coach.live.record.runs.values()
        assert [lane.name for lane in piece.lanes] == ["Pavel + Tom"]


async def test_an_option_is_on_the_board_as_soon_as_it_is_said(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press(":", "n", "3")
        assert "Noor: chair stand" in coach.foot()
        lanes = {lane.name: lane.modification for lane in board_now(coach.session).lanes}
        assert lanes["Noor"] == "chair stand"
        await coach.press("enter")
        assert coach.live.phase == "count-in"


async def test_a_load_is_on_the_board_as_soon_as_it_is_said(open_class: Any) -> None:
    async with open_class(PAIRS, segment=1) as coach:
        await coach.press("8", "2", ".", "5", "n")
        lanes = {lane.name: lane.load for lane in board_now(coach.session).lanes}
        assert lanes == {"Ilse": "", "Bram": "", "Noor": "82.5 kg"}
        await coach.start()
        await coach.press("n")
        assert "Noor, 82.5 kg" in coach.foot()


async def test_the_load_of_who_keeps_it_off_the_wall_is_never_said(open_class: Any) -> None:
    people = people_named(("Ilse", "Bram"))
    people = (replace(people[0], marks=("off the wall",)), people[1])
    async with open_class(PAIRS, people=people, segment=1) as coach:
        await coach.press(*"82.5i")
        assert "Ilse: noted" in coach.foot()
        assert "82.5" not in coach.seen()


async def test_a_letter_that_nobody_has_leaves_enter_free(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press(":", "z", "2", "enter")
        assert coach.live.phase == "count-in"


async def test_with_more_people_than_letters_the_list_is_named(open_class: Any) -> None:
    names = tuple(f"Tram {number}" for number in range(MOST_LANES + 1))
    async with open_class(names=names, segment=1) as coach:
        await coach.press(".", "t")
        assert "ctrl+p" in coach.foot()
        assert coach.live.record.left == {}
        await coach.press("enter")
        assert coach.live.phase == "count-in"


async def test_the_help_has_these_keys_on_the_board(open_class: Any) -> None:
    async with open_class(segment=1) as coach:
        await coach.press("?")
        seen = ""
        for _ in range(3):
            seen += coach.seen()
            await coach.press("?")
        assert "N has left: no lane from here on" in seen
        assert "N uses option 2 (02 above nine)" in seen
