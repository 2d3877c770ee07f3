"""What fits the class to the clock: never too long, and taken back it is the plan again."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from msgspec.structs import replace

from classclock.plan.formats.fit import Fit
from classclock.plan.formats.timelines import length
from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.fitting import (
    MOST_WAYS,
    ClassFit,
    class_fit,
    fits_to_take_back,
    overruns,
    time_needed,
)
from classclock.tally import events as ev
from classclock.tally.decide_fitting import decide_fitting
from classclock.tally.lanes import Place, Sharing
from classclock.tally.record import ClassRecord
from classclock.tally.refusal import Refusal
from classclock.units.times import show_time

MINUTE = 60_000
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
steps = [{ work = "2:00" }]
lift = "front squat"
score = "load"
sets = [{ reps = 5 }, { reps = 5 }, { reps = 3 }, { reps = 3 }, { reps = 1 }]
[[segment]]
name = "Practice"
format = "countdown"
time = "4:00"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
count_in = "0:30"
  [[segment.station]]
  movement = "sit-up"
  reps = 12
[[segment]]
name = "Cool-down"
format = "countdown"
time = "6:00"
"""
WARM_UP, SQUAT, PRACTICE, TURNTABLE, COOL_DOWN = range(5)
WHOLE = 44 * MINUTE + 4 * 10_000 + 30_000
"""All five with their count-ins."""


def plan_of(text: str) -> Plan:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, findings
    return plan


@pytest.fixture(scope="module")
def evening() -> ClassRecord:
    return ClassRecord(plan_of(EVENING))


def said(fit: ClassFit) -> list[tuple[int, Any, int]]:
    """Each way: the segment, its new length in minutes or that it goes, the minutes over."""
    return [
        (
            way.segment,
            "out" if way.fit.left_out else way.length / MINUTE,
            -(-way.over // MINUTE),
        )
        for way in fit.ways
    ]


def test_a_plan_that_ends_in_time_needs_nothing(evening: ClassRecord) -> None:
    assert time_needed(evening) == WHOLE
    fit = class_fit(evening, WHOLE)
    assert (fit.over, fit.ways, overruns(evening, WHOLE)) == (0, (), False)
    assert overruns(evening, WHOLE - 1)
    assert not overruns(evening, None), "nobody said when it ends"


def test_eight_minutes_too_long(evening: ClassRecord) -> None:
    fit = class_fit(evening, WHOLE - 8 * MINUTE)
    assert fit.over == 8 * MINUTE
    assert fit.enough
    assert said(fit) == [
        # The longest that ends in time comes first, then the pieces that could go.
        (TURNTABLE, 8, 0),
        (SQUAT, "out", 0),
        (TURNTABLE, "out", 0),
        # What isn't enough alone: half of it, or without it.
        (WARM_UP, 4, 4),
        (SQUAT, 6, 4),
        (PRACTICE, 2, 6),
        (COOL_DOWN, 3, 5),
        (PRACTICE, "out", 4),
        (COOL_DOWN, "out", 2),
    ]


def test_of_what_ends_in_time_the_longest_is_offered(evening: ClassRecord) -> None:
    fit = class_fit(evening, WHOLE - 90_000)
    assert said(fit)[:4] == [(WARM_UP, 6, 0), (SQUAT, 8, 0), (PRACTICE, 2, 0), (TURNTABLE, 14, 0)]


def test_the_warm_up_before_the_first_piece_never_goes(evening: ClassRecord) -> None:
    """Common practice, no source."""
    gone = {way.segment for way in class_fit(evening, 0).ways if way.fit.left_out}
    assert WARM_UP not in gone
    without_pieces = plan_of(
        'title = "Depot mobility"\n'
        + "".join(
            f'[[segment]]\nname = "{name}"\nformat = "countdown"\ntime = "5:00"\n'
            for name in ("Hips", "Ankles")
        )
    )
    ways = class_fit(ClassRecord(without_pieces), 0).ways
    assert [way.segment for way in ways if way.fit.left_out] == [0, 1]


def test_what_has_begun_is_past(evening: ClassRecord) -> None:
    record = evening.apply(0, ev.SegmentChosen(0, TURNTABLE))
    assert {way.segment for way in class_fit(record, 0).ways} == {TURNTABLE, COOL_DOWN}
    record = record.apply(1, ev.SegmentStarted(0, TURNTABLE, 1, 0, ()))
    assert {way.segment for way in class_fit(record, 0).ways} == {COOL_DOWN}


def test_who_goes_back_to_what_was_left_out_runs_the_others_no_second_time(
    evening: ClassRecord,
) -> None:
    record = evening
    for event in (
        ev.SegmentFitted(0, PRACTICE, Fit(left_out=True)),
        ev.SegmentChosen(0, TURNTABLE),
        ev.SegmentStarted(0, TURNTABLE, 1, 0, ()),
        ev.SegmentChosen(20 * MINUTE, PRACTICE),
    ):
        record = record.apply(1, event)
    assert time_needed(record) == 4 * MINUTE + 6 * MINUTE + 20_000


def test_the_only_one_to_come_is_made_shorter_or_stays(evening: ClassRecord) -> None:
    record = evening.apply(0, ev.SegmentChosen(0, COOL_DOWN))
    assert said(class_fit(record, 4 * MINUTE)) == [(COOL_DOWN, 3, 0)]


def test_two_heats_take_twice_as_long_and_save_twice_as_much(evening: ClassRecord) -> None:
    sharing = Sharing("two heats", (Place(("ilse",)), Place(("bram",), heat=2)))
    record = evening.apply(0, ev.EquipmentShared(0, TURNTABLE, sharing))
    needed = WHOLE + 16 * MINUTE + 30_000
    assert time_needed(record) == needed
    assert said(class_fit(record, needed - 4 * MINUTE))[2] == (TURNTABLE, 14, 0)


def test_two_changes_together_where_one_is_not_enough(evening: ClassRecord) -> None:
    left = WHOLE - 18 * MINUTE
    fit = class_fit(evening, left)
    assert not fit.enough
    record = taken(evening, fit, 0)
    again = class_fit(record, left)
    assert again.over < fit.over
    while again.over:
        record = taken(record, again, 0)
        again = class_fit(record, left)
    assert time_needed(record) <= left
    assert len(fits_to_take_back(record)) > 1


def taken(record: ClassRecord, fit: ClassFit, number: int) -> ClassRecord:
    """The record once the coach has taken this way."""
    way = fit.ways[number]
    decided = decide_fitting(record, way.segment, way.fit, 0)
    assert not isinstance(decided, Refusal), decided.text
    for event in decided:
        record = record.apply(1, event)
    return record


def test_the_newest_is_taken_back_first(evening: ClassRecord) -> None:
    record = evening
    for segment in (TURNTABLE, WARM_UP, COOL_DOWN):
        fit = Fit(length=length(record.plan.segment[segment]) - MINUTE)
        record = record.apply(1, ev.SegmentFitted(0, segment, fit))
    assert fits_to_take_back(record) == (COOL_DOWN, WARM_UP, TURNTABLE)
    begun = record.apply(2, ev.SegmentStarted(0, WARM_UP, 1, 0, ()))
    assert fits_to_take_back(begun) == (COOL_DOWN, TURNTABLE)


# -- any class at all --------------------------------------------------------------


STATION = '[[segment.station]]\nmovement = "sit-up"\nreps = 12\n'


def any_time(most: int) -> st.SearchStrategy[str]:
    return st.integers(5, most).map(lambda seconds: show_time(seconds * 1000))


SCORED = st.sampled_from(["", 'score = "reps"\n'])
TOTAL = st.sampled_from(["", 'score = "total"\n'])
KEEPS_REST = st.sampled_from(["", "keep_last_rest = true\n"])
ANY_SEGMENT = st.one_of(
    st.builds('format = "countdown"\ntime = "{}"\n{}'.format, any_time(2_000), SCORED),
    st.builds(f'format = "rounds-in-time"\ntime = "{{}}"\n{STATION}'.format, any_time(2_000)),
    st.builds(
        f'format = "capped-for-time"\ncap = "{{}}"\nrounds = 3\n{STATION}'.format,
        any_time(2_000),
    ),
    st.builds(
        'format = "interval"\nrepeat = {}\nsteps = [{{work = "{}"}}, {{rest = "{}"}}]\n{}{}'.format,
        st.integers(1, 30),
        any_time(200),
        any_time(100),
        KEEPS_REST,
        TOTAL,
    ),
)


@st.composite
def any_class(draw: st.DrawFn) -> ClassRecord:
    segments = draw(st.lists(ANY_SEGMENT, min_size=1, max_size=7))
    texts = (f'[[segment]]\nname = "{n}"\n{segment}' for n, segment in enumerate(segments))
    record = ClassRecord(plan_of('title = "Depot"\n' + "".join(texts)))
    here = draw(st.integers(0, len(segments) - 1))
    return record.apply(0, ev.SegmentChosen(0, here))


@given(any_class(), st.integers(0, 5_000_000))
def test_what_fits_never_overruns_and_says_what_it_saves(record: ClassRecord, left: int) -> None:
    fit = class_fit(record, left)
    assert len(fit.ways) <= MOST_WAYS
    assert bool(fit.over) == overruns(record, left)
    for number, way in enumerate(fit.ways):
        after = taken(record, fit, number)
        assert time_needed(after) == fit.needs - way.saves
        assert max(0, time_needed(after) - left) == way.over
        assert way.saves > 0
        planned = length(record.planned(way.segment))
        assert way.planned == planned
        assert way.fit.length is None or planned <= 2 * way.length
        assert way.fit.left_out or way.length == length(after.plan.segment[way.segment])


@given(any_class(), st.integers(0, 3_000_000), st.lists(st.integers(0, 8), max_size=6))
def test_taken_back_it_is_the_plan_again_whatever_was_taken(
    record: ClassRecord, left: int, digits: list[int]
) -> None:
    before = record
    for digit in digits:
        fit = class_fit(record, left)
        if digit < len(fit.ways):
            record = taken(record, fit, digit)
    while fits := fits_to_take_back(record):
        record = record.apply(1, ev.SegmentFitted(0, fits[0], None))
    assert (record.plan, record.fits) == (before.plan, {})
    assert replace(record, chosen=before.chosen).to_come == before.to_come
