"""What people are to look out for. Common practice, no source, where a line is looked into."""

import re
from collections.abc import Callable
from itertools import chain
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.club.plan_files import read_plan
from classclock.machine.bundled import bundled
from classclock.plan.care import AFTER_A_CLASS, BEFORE_A_CLASS, STILL_HURTS, STOP
from classclock.plan.cautions import cautions_of, each_once
from classclock.plan.model import Segment, is_piece
from classclock.plan.movements.completing import complete
from classclock.plan.movements.library import Movement
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.spelling import fold

MOVEMENTS = starter_library().movements
PLANS = sorted(bundled("plans").glob("*.toml"))
PAIN = re.compile(r"\b(hurts?|pain|sore|aches?|feel it)\b", re.IGNORECASE)
LONGEST = 72
"""Letters of a line that is read from the wall."""


@pytest.fixture
def segment(as_plan: Callable[[str], str]) -> Callable[[str], Segment]:
    def read(lines: str) -> Segment:
        plan, findings = parse_plan(as_plan(lines), "t.toml")
        assert plan is not None, findings
        return complete(plan, starter_library()).segment[0]

    return read


# -- when to stop ----------------------------------------------------------------------


@pytest.mark.parametrize(
    "clock",
    [
        'format = "countdown"\ntime = "9:00"\nlift = "deadlift"\nscore = "load"',
        'format = "interval"\nrepeat = 3\nsteps = [{ work = "0:40" }]\nscore = "total"',
        'format = "rounds-in-time"\ntime = "9:00"',
        'format = "capped-for-time"\ncap = "9:00"\nrounds = 2',
    ],
)
def test_every_scored_piece_begins_with_when_to_stop(
    clock: str, segment: Callable[[str], Segment]
) -> None:
    station = '[[segment.station]]\nmovement = "push-up"\nreps = 9'
    piece = segment(f'{clock}\ncaution = ["Keep the lane clear."]\n{station}')
    assert is_piece(piece)
    assert cautions_of(piece, STOP)[:2] == (STOP, "Keep the lane clear.")
    own = "Dizzy: stop, sit down."
    assert cautions_of(piece, own)[0] == own
    assert STOP not in cautions_of(piece, own)


def test_what_is_not_scored_has_only_its_own_cautions(segment: Callable[[str], Segment]) -> None:
    warm_up = segment('format = "countdown"\ntime = "9:00"\ncaution = ["Dry floor."]')
    assert cautions_of(warm_up, STOP) == ("Dry floor.",)


def test_a_plan_that_words_it_too_says_it_once_and_first(
    segment: Callable[[str], Segment],
) -> None:
    said = f'caution = ["Dry floor.", "{STOP.upper()}"]'
    piece = segment(f'format = "rounds-in-time"\ntime = "9:00"\n{said}')
    assert cautions_of(piece, STOP) == (STOP, "Dry floor.")


@given(st.lists(st.text(max_size=12), max_size=8))
def test_of_two_lines_only_the_same_words_are_one(lines: list[str]) -> None:
    kept = each_once(lines)
    assert each_once(kept) == kept
    assert {fold(line) or line for line in lines} == {fold(line) or line for line in kept}


@pytest.mark.parametrize("file", PLANS, ids=lambda file: file.stem)
def test_the_sample_plans_leave_it_to_the_club_to_word_when_to_stop(file: Path) -> None:
    assert "Dizzy" not in file.read_text("utf-8")


# -- pain ------------------------------------------------------------------------------


def test_what_to_do_where_the_easier_movement_hurts_too_is_said_once_and_last(
    segment: Callable[[str], Segment],
) -> None:
    stations = "".join(
        f'[[segment.station]]\nmovement = "{name}"\nreps = 9\n'
        for name in ("bodyweight squat", "push-up", "box step-over")
    )
    cautions = cautions_of(segment(f'format = "rounds-in-time"\ntime = "9:00"\n{stations}'), STOP)
    assert cautions.count(STILL_HURTS) == 1
    assert cautions[-1] == STILL_HURTS


@pytest.mark.parametrize("movement", MOVEMENTS, ids=lambda one: one.name)
def test_a_pain_is_answered_with_stop_or_with_less_and_then_with_stop(movement: Movement) -> None:
    pains = [line for line in movement.caution if PAIN.search(line) and line != STILL_HURTS]
    eased = [line for line in pains if ": stop," not in line]
    assert (STILL_HURTS in movement.caution) == bool(eased)
    assert movement.caution.count(STILL_HURTS) == bool(eased)


@pytest.mark.parametrize("movement", MOVEMENTS, ids=lambda one: one.name)
def test_whoever_is_pregnant_asks_first(movement: Movement) -> None:
    for line in movement.caution:
        if "regnant" in line:
            assert "ask" in line.split() or "ask." in line.split(), line


ON_THE_BACK = {
    "sit-up": "march on the spot",
    "dead bug": "march on the spot",
    "hollow hold": "march on the spot",
    "glute bridge": "hip hinge, standing",
    "bench press": "push-up, hands on the wall",
}


@pytest.mark.parametrize(("name", "standing"), ON_THE_BACK.items())
def test_what_lies_on_the_back_has_a_standing_option_for_whoever_is_pregnant(
    name: str, standing: str
) -> None:
    movement = starter_library().find(name)
    assert movement is not None
    assert any("Pregnant: ask first; a standing option" in line for line in movement.caution)
    assert movement.options[0].name == standing


def test_high_blood_pressure_is_not_sent_from_one_long_hold_to_another() -> None:
    lines = {line for one in MOVEMENTS for line in one.caution if "blood pressure" in line}
    assert lines
    assert not any("instead" in line for line in lines)


def test_nobody_is_offered_slow_lowering_as_something_easier() -> None:
    # Lengthening under load is what makes newcomers sorest.
    plans = [plan for file in PLANS if (plan := read_plan(file)[0]) is not None]
    offered = [option.name for one in MOVEMENTS for option in one.options] + [
        option.name
        for plan in plans
        for one in plan.segment
        for station in one.station
        for option in station.options
    ]
    assert len(offered) > 100
    assert not [name for name in offered if re.search(r"lowering|negative|slow", name)]


# -- short enough to be read -------------------------------------------------------------


@pytest.mark.parametrize(
    "line", sorted({STOP, *chain.from_iterable(one.caution for one in MOVEMENTS)})
)
def test_a_line_is_short_and_ends(line: str) -> None:
    assert len(line) <= LONGEST
    assert line.endswith(".")


@pytest.mark.parametrize("line", BEFORE_A_CLASS)
def test_what_to_ask_before_a_class_fits_the_narrowest_window(line: str) -> None:
    assert len(line) <= 58


@pytest.mark.parametrize("line", AFTER_A_CLASS)
def test_nothing_that_is_said_diagnoses_promises_or_clears(line: str) -> None:
    for word in ("safe", "fine", "cleared", "you have", "means that"):
        assert word not in line
