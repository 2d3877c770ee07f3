"""How short a segment can be made, and what it is then."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.formats.fit import Fit, fewer_repeats, length_of_planned, shorter_lengths
from classclock.plan.formats.timelines import length, timeline
from tests.written_segments import Write

MINUTE = 60_000


def test_a_time_gets_whole_minutes_down_to_half_of_it() -> None:
    lengths = [fit.length for fit in shorter_lengths(16 * MINUTE)]
    assert lengths == [minutes * MINUTE for minutes in range(15, 7, -1)]
    assert [fit.length for fit in shorter_lengths(5 * MINUTE + 1)] == [300_000, 240_000, 180_000]


@pytest.mark.parametrize("planned", [1, 30_000, MINUTE])
def test_what_lasts_a_minute_or_less_stays_as_it_is(planned: int) -> None:
    assert shorter_lengths(planned) == ()


@given(st.integers(1, 24 * 60 * MINUTE))
def test_no_length_is_as_long_as_planned_or_under_half_of_it(planned: int) -> None:
    lengths = [fit.length or 0 for fit in shorter_lengths(planned)]
    assert lengths == sorted(lengths, reverse=True)
    assert all(planned <= 2 * one < 2 * planned and one % MINUTE == 0 for one in lengths)
    assert bool(lengths) == (planned > MINUTE)


@given(st.integers(1, 200))
def test_steps_are_gone_through_fewer_times_but_no_fewer_than_half(planned: int) -> None:
    repeats = [fit.repeat or 0 for fit in fewer_repeats(planned)]
    assert repeats == list(range(planned - 1, (planned - 1) // 2, -1))


def test_it_is_said_beside_what_was_planned() -> None:
    assert length_of_planned(12 * MINUTE, 16 * MINUTE) == "12:00 of 16:00 planned"


def test_the_clock_and_the_cues_follow(write: Write) -> None:
    planned = write("rounds-in-time", time="16:00")
    fitted = planned.fitted(Fit(length=12 * MINUTE))
    assert length(fitted) == 12 * MINUTE
    assert timeline(fitted) == timeline(write("rounds-in-time", time="12:00"))
    assert length(planned) == 16 * MINUTE, "the plan stays as it was"


def test_of_a_cap_nothing_but_the_cap_changes(write: Write) -> None:
    keys = {"scheme": [18, 12, 6], "station": [{"movement": "sit-up"}]}
    planned = write("capped-for-time", cap="12:00", **keys)
    fitted = planned.fitted(Fit(length=8 * MINUTE))
    assert fitted == write("capped-for-time", cap="8:00", **keys)
    assert fitted.total_reps == planned.total_reps == 36


def test_the_sets_beyond_the_repeats_are_dropped(write: Write) -> None:
    sets = [{"reps": 3, "percent": percent} for percent in (65, 70, 75, 80)]
    lift = {"lift": "front squat", "score": "load", "steps": [{"work": "2:00"}, {"rest": "1:00"}]}
    planned = write("interval", repeat=4, sets=sets, **lift)
    assert planned.fitted(Fit(repeat=3)) == write("interval", repeat=3, sets=sets[:3], **lift)
    one_for_all = write("interval", repeat=4, sets=sets[:1], **lift)
    assert one_for_all.fitted(Fit(repeat=2)).sets == one_for_all.sets


def test_with_two_work_steps_a_repeat_has_two_sets(write: Write) -> None:
    sets = [{"reps": reps} for reps in (6, 5, 4, 3)]
    steps = [{"work": "1:00"}, {"work": "0:30"}]
    planned = write("interval", repeat=2, steps=steps, sets=sets, lift="press", score="load")
    assert [one.reps for one in planned.fitted(Fit(repeat=1)).sets] == [6, 5]


def test_what_is_left_out_stays_as_it_is_for_whoever_goes_back_to_it(write: Write) -> None:
    planned = write("countdown", time="8:00")
    assert planned.fitted(Fit(left_out=True)) == planned
    steps = write("interval", repeat=4, steps=[{"work": "1:00"}])
    assert steps.fitted(Fit(left_out=True)) == steps


@pytest.mark.parametrize("fit", [Fit(), Fit(length=480_000), Fit(length=0), Fit(repeat=2)])
def test_a_time_is_never_made_longer_and_has_no_repeats(write: Write, fit: Fit) -> None:
    with pytest.raises(ValueError, match="so short"):
        write("countdown", time="8:00").fitted(fit)


@pytest.mark.parametrize("fit", [Fit(), Fit(repeat=4), Fit(repeat=0), Fit(length=60_000)])
def test_steps_are_never_gone_through_more_often_and_have_no_length(write: Write, fit: Fit) -> None:
    with pytest.raises(ValueError, match="so short"):
        write("interval", repeat=4, steps=[{"work": "1:00"}]).fitted(fit)
