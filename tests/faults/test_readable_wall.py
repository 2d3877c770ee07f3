"""What a wall may not do to eyes: flash, speak by hue alone, or promise what can't be read."""

import math
import re
import string
from itertools import combinations
from typing import Any

import pytest
from rich.segment import Segment

from benchmarks.programs import NAMES
from classclock.commands.command_line import main
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.live.wall.lane_drawing import draw_lane
from classclock.screens.live.wall.readable import usual_wall
from classclock.wall.colours.mixing import channels, contrast
from classclock.wall.colours.theme import DARK, LIGHT, Theme, text_pairs
from classclock.wall.hue import Hue
from classclock.wall.lane_bars import Ribbon
from classclock.wall.lane_content import LaneContent
from tests.faults.a_full_wall import PEOPLE
from tests.faults.conftest import Seen
from tests.screens.live.wall.walls import lane_layout_for

PLAN = """
title = "Short and sharp"
[[segment]]
name = "Points"
format = "interval"
repeat = 1
score = "total"
count_in = "0:04"
steps = [{ work = "0:04" }]
  [[segment.station]]
  movement = "box step-over"
  reps = 6
"""
STEP = 100
"""Milliseconds between two looks, short enough for five flashes in a second."""


@pytest.mark.parametrize("names", [PEOPLE, NAMES], ids=["tests", "benchmarks"])
def test_everybody_on_a_full_wall_has_a_letter_of_their_own(names: tuple[str, ...]) -> None:
    assert sorted(name[0].lower() for name in names) == sorted(string.ascii_lowercase)


def luminance(colour: str) -> float:
    """Relative luminance, 0 to 1, from its contrast to black (WCAG 2.2)."""
    return contrast(colour, "#000000") * 0.05 - 0.05


def cells(rows: list[list[Segment]]) -> list[float]:
    """The luminance of ink and ground of each cell; blank cells have no ink of their own."""
    lights = []
    for segment in (segment for row in rows for segment in row):
        style = segment.style
        ink = style.color.triplet if style and style.color else None
        ground = style.bgcolor.triplet if style and style.bgcolor else None
        behind = luminance(ground.hex) if ground else 0.0
        for sign in segment.text:
            before = luminance(ink.hex) if ink and not sign.isspace() else behind
            lights += [before, behind]
    return lights


def flashes(lights: list[float]) -> int:
    """Pairs of opposing changes of a tenth of full luminance or more (WCAG 2.2, flash)."""
    turns, direction, extreme = 0, 0, lights[0]
    for light in lights:
        change = light - extreme
        if abs(change) >= 0.1 and (change > 0) != (direction > 0 if direction else not change > 0):
            turns, direction, extreme = turns + 1, 1 if change > 0 else -1, light
        elif direction and (change > 0) == (direction > 0):
            extreme = light
    return turns // 2


async def test_nothing_flashes_more_than_three_times_in_a_second_from_count_in_to_the_end(
    class_on_screen: Any, seen: Seen
) -> None:
    # WCAG 2.2, 2.3.1: no more than three flashes in any one second.
    async with class_on_screen(PLAN) as coach:
        await coach.press("enter")
        frames = []
        for _ in range(9_600 // STEP):
            await coach.wind(STEP / 1000)
            strips = coach.screen._compositor.render_strips()
            frames.append(cells([list(strip) for strip in strips]))
        assert coach.live.phase == "over"
    assert len({len(frame) for frame in frames}) == 1
    second = 1000 // STEP
    worst, changing = 0, 0
    for place in range(len(frames[0])):
        over_time = [frame[place] for frame in frames]
        if max(over_time) - min(over_time) < 0.1:
            continue
        changing += 1
        for start in range(len(over_time) - second):
            worst = max(worst, flashes(over_time[start : start + second + 1]))
    seen(
        f"{len(frames)} looks in 9.6 s, {changing} inks and grounds that changed: at most {worst} "
        "flashes of any in any second"
    )
    assert changing > 500
    assert worst <= 3


def test_the_count_of_flashes_finds_them() -> None:
    assert flashes([0, 1, 0, 1, 0, 1, 0, 1, 0]) == 4
    assert flashes([0, 0.05, 0, 0.05]) == 0
    assert flashes([0, 0, 1, 1, 1]) == 0
    assert flashes([0.5, 0.6, 0.7, 0.8]) == 0


@pytest.mark.parametrize("theme", [DARK, LIGHT], ids=lambda theme: theme.name)
def test_every_colour_that_letters_are_drawn_in_is_among_those_whose_contrast_is_checked(
    theme: Theme,
) -> None:
    checked = {colour.lower() for _, *pair in text_pairs(theme) for colour in pair}
    words = re.compile(r"(^|_)(ink|quiet|key|alarm|text|doubtful|late)($|_)")
    inks = {
        name: getattr(theme, name)
        for name in Theme.__struct_fields__
        if words.search(name) and isinstance(getattr(theme, name), str)
    }
    inks |= {f"{one}.text": getattr(theme, one).text for one in ("ahead", "level", "behind")}
    assert {name for name, colour in inks.items() if colour.lower() not in checked} == set()


AGAINST: dict[Hue, str] = {"ahead": "6 ahead", "behind": "6 behind", "level": "level"}
SIZES = [(60, 18), (80, 24), (100, 30), (120, 36), (160, 45), (213, 60), (240, 70)]


@pytest.mark.parametrize(("columns", "rows"), SIZES)
@pytest.mark.parametrize("lanes", [1, 4, 8, 12, 18, 26])
def test_ahead_and_behind_differ_in_words_wherever_they_differ_in_hue(
    columns: int, rows: int, lanes: int
) -> None:
    plan = lane_layout_for(lanes, columns, rows, name="Noor")
    drawn = {}
    for standing, against in AGAINST.items():
        content = LaneContent(
            "n",
            "Noor",
            "7+12",
            "7",
            rank="2nd",
            modification="lower box",
            split="1:58",
            on_for="on for 8",
            against=against,
            standing=standing,
            bar=Ribbon(960_000, (), 600_000, stopped=False),
        )
        drawn[standing] = draw_lane(content, plan, Look())
    for one, other in combinations(drawn.values(), 2):
        if hues(one) != hues(other):
            assert plain_text(one) != plain_text(other)


def hues(drawing: Any) -> set[tuple[int, ...]]:
    styles = [segment.style for row in drawing for segment in row if segment.style]
    colours = [colour for style in styles for colour in (style.color, style.bgcolor) if colour]
    return {channels(colour.triplet.hex) for colour in colours if colour.triplet}


@pytest.mark.parametrize(
    ("tv", "screen_mm", "clock_minutes"),
    [
        # By hand. A 16:9 screen of 43 inches is 43 x 25.4 x 9 / sqrt(337) = 535.46 mm high, so a
        # row of 36 has 14.874 mm. The clock of 8 lanes in 120 x 36 takes 9 rows: 133.87 mm. Seen
        # from 6 m that is 133.87 / 6000 rad = 0.022311 rad = 76.7 minutes of arc.
        ((43, 6), 535.46, 76.7),
        # 65 inches: 65 x 25.4 x 9 / sqrt(337) = 809.41 mm, a row 22.484 mm, the clock 202.35 mm;
        # from 12 m 0.016863 rad = 58.0 minutes of arc.
        ((65, 12), 809.41, 58.0),
    ],
)
def test_check_says_what_a_worked_example_says(
    tv: tuple[int, int],
    screen_mm: float,
    clock_minutes: float,
    tmp_path: Any,
    capsys: pytest.CaptureFixture[str],
) -> None:
    inches, metres = tv
    (tmp_path / "club.toml").write_text(f"[tv]\ninches = {inches}\nmetres = {metres}\n")
    assert main(["check", "turntable", "--club", str(tmp_path)]) == 0
    said = capsys.readouterr().out
    assert f"On a {inches:g}-inch TV, from {metres:g} m, with 8 lanes" in said
    match = re.search(r"clock +read up to +([\d.]+) m  \(([\d.]+)' of arc\)", said)
    assert match is not None
    rows = usual_wall(120, 36, 8, "halves").clock.size
    by_hand = math.degrees(rows * screen_mm / 36 / (metres * 1000)) * 60
    assert by_hand == pytest.approx(clock_minutes, abs=0.15)
    assert float(match[2]) == pytest.approx(clock_minutes, abs=0.15)
    # 16 minutes of arc are 0.0046542 rad (ISO 9241-3: the least).
    assert float(match[1]) == pytest.approx(rows * screen_mm / 36 / 4.6542, abs=0.1)
