"""Teaching from the wall: one movement at a time, and its cautions in every window."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.machine.terminal import Terminal
from classclock.plan.editing.writing import plan_text
from classclock.plan.movements.completing import complete
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.board.lesson_drawing import draw_lesson, lesson_layout
from classclock.screens.live.wall.readable import character_height, row_height
from classclock.wall.lesson_content import Lesson, lessons

PLAIN = Look(SIXTEEN, Terminal(16, None))
SIZES = [(60, 18), (120, 36), (213, 60)]
PLAN = """
title = "Depot Thursday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "9:00"
  [[segment.station]]
  movement = "push press"
  reps     = 9
  [[segment.station]]
  movement = "box step-over"
  reps     = 6
[[segment]]
name   = "Front squat"
format = "countdown"
time   = "9:00"
lift   = "front squat"
score  = "load"
"""


def completed() -> str:
    plan, findings = parse_plan(PLAN, "t.toml")
    assert plan is not None, findings
    return plan_text(complete(plan, starter_library()))


@pytest.fixture(scope="module")
def lesson() -> Lesson:
    plan, _ = parse_plan(completed(), "t.toml")
    assert plan is not None
    return lessons(plan.segment[1])[0]


def test_a_lesson_says_what_counts_what_to_coach_and_what_to_look_out_for(lesson: Lesson) -> None:
    assert (lesson.name, lesson.place) == ("push press", "movement 1 of 2")
    assert lesson.words == "9 push press"
    assert lesson.standard == "arms straight, bar over the shoulders, knees straight"
    assert lesson.points == ("short dip, upright", "legs first, then arms", "ribs down")
    assert lesson.cautions == ("Shoulder pain overhead: stop, tell the coach.",)


def test_a_lift_is_taught_as_a_movement_is() -> None:
    plan, _ = parse_plan(completed(), "t.toml")
    assert plan is not None
    (lift,) = lessons(plan.segment[2])
    assert lift.name == "front squat"
    assert "elbows high" in lift.points
    assert lift.cautions[0].startswith("Safety bars")
    assert lessons(plan.segment[0]) == (), "a warm-up of lines has none"


@given(st.integers(60, 240), st.integers(17, 70), st.integers(1, 4))
@settings(deadline=None)
def test_no_window_hides_a_movements_caution(
    check_filled: Callable[[Drawing, int, int], None],
    lesson: Lesson,
    columns: int,
    rows: int,
    many: int,
) -> None:
    crowded = Lesson(*(getattr(lesson, name) for name in lesson.__struct_fields__))
    cautions = tuple(f"{number}: {text}" for number in range(many) for text in lesson.cautions)
    crowded = Lesson(
        crowded.place,
        crowded.name,
        crowded.words,
        crowded.standard,
        crowded.points,
        cautions,
        crowded.options,
    )
    drawn = draw_lesson(crowded, columns, rows, PLAIN)
    check_filled(drawn, columns, rows)
    text = " ".join(plain_text(drawn).split())
    assert all(caution in text for caution in cautions)
    assert all(point in text for point in lesson.points) or rows < 20


@pytest.mark.parametrize("size", SIZES)
def test_a_lesson_fills_every_size_in_drawn_letters(
    check_filled: Callable[[Drawing, int, int], None], lesson: Lesson, size: tuple[int, int]
) -> None:
    check_filled(draw_lesson(lesson, *size, Look()), *size)


def test_the_points_are_read_from_ten_metres_in_a_common_window(lesson: Lesson) -> None:
    # 16' of arc is the least (ISO 9241-3), a 55-inch TV; a capital is 660 of an outline word's 917.
    drawn = draw_lesson(lesson, 120, 35, Look())
    words = plain_text(drawn)
    assert "legs first" not in words, "drawn, not typed"
    assert "Shoulder pain" not in words
    needed = character_height(10) / row_height(55, 36)
    assert needed < 5 * 660 / 917
    assert lesson_layout(lesson, 116, 33, CellMeasure(Terminal())).sizes["point"] >= 5


@pytest.mark.parametrize("size", SIZES)
async def test_tab_goes_through_the_movements_and_back_to_the_plan(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(completed(), size=size, look=PLAIN, segment=1) as coach:
        plan = coach.seen()
        assert "tab teaches" in plan or size[0] < 80
        await coach.press("tab")
        assert "legs first, then arms" in coach.seen()
        assert "Shoulder pain overhead" in coach.seen()
        assert "escape: the plan" in coach.seen()
        await coach.press("tab")
        assert "both feet on the box" in coach.seen()
        assert "Step down from the box, don't jump." in coach.seen()
        assert "legs first" not in coach.seen()
        await coach.press("shift+tab")
        assert "legs first" in coach.seen()
        await coach.press("escape")
        assert coach.screen.shown.guide.lesson is None
        await coach.press("shift+tab")
        assert "both feet on the box" in coach.seen()
        await coach.press("tab")
        assert "segment 2 of 3" in coach.seen()


async def test_teaching_keeps_no_key_from_the_class(open_class: Any) -> None:
    async with open_class(completed(), look=PLAIN, segment=1) as coach:
        await coach.press("tab")
        await coach.press("down")
        assert "movement 1 of" not in coach.seen(), "another segment begins with its plan"
        await coach.wind(2)
        await coach.press("up")
        await coach.wind(2)
        await coach.press("tab")
        await coach.start()
        assert coach.live.phase == "running"
        await coach.press("i")
        assert coach.live.record.sheet.tallies[coach.live.lineup()[0].id].rounds
        await coach.press("tab")
        assert coach.live.phase == "running"
        assert "movement 1 of" not in coach.seen()


async def test_a_segment_of_lines_says_that_there_is_nothing_to_teach(open_class: Any) -> None:
    async with open_class(completed(), look=PLAIN) as coach:
        await coach.press("tab")
        assert "nothing to teach here" in coach.seen()


async def test_the_wall_shows_the_standards_quietly_where_there_is_room(open_class: Any) -> None:
    async with open_class(completed(), size=(213, 60), segment=1, look=PLAIN) as coach:
        await coach.start()
        assert "both feet on the box" in coach.seen()
    async with open_class(completed(), size=(60, 18), segment=1, look=PLAIN) as coach:
        await coach.start()
        assert "both feet on the box" not in coach.seen()
        assert "Headway" in coach.seen(), "the standards go before anything else"


async def test_a_faulty_list_of_movements_is_said_on_the_board_until_the_start(
    open_class: Any,
) -> None:
    async with open_class(completed(), look=PLAIN, segment=1) as coach:
        coach.session.left_out = "movements.toml is left out (line 4: no such pattern)"
        await coach.reads("movements.toml is left out (line 4")
        await coach.start()
        assert coach.live.phase == "running"
        assert "movements.toml" not in coach.seen()
