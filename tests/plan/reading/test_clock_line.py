"""A clock without a plan: what a line means, that its name means the same, and what was meant.

The forms are this project's own. That a bare number is minutes for a piece and seconds for an
interval is how coaches write them on a board: common practice, no source.
"""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.open_class import open_class, segment_of, segment_text
from classclock.plan.reading.clock_forms import FORMS
from classclock.plan.reading.clock_line import (
    LONGEST,
    NOT_SCORED,
    SHORTEST_WORK,
    ClockWay,
    NoClock,
    read_clock_line,
)
from classclock.plan.reading.plan_reading import parse_plan

MINUTE = 60_000


def ways(line: str) -> tuple[ClockWay, ...]:
    read = read_clock_line(line)
    assert not isinstance(read, NoClock), read.why
    return read


def first(line: str) -> Segment:
    return ways(line)[0].segment


def refused(line: str) -> NoClock:
    read = read_clock_line(line)
    assert isinstance(read, NoClock)
    return read


@pytest.mark.parametrize(
    ("line", "format_", "minutes"),
    [
        ("rounds 12", "rounds-in-time", 12),
        ("for time 15", "capped-for-time", 15),
        ("8 x 20/10", "interval", 8 * 0.5 - 1 / 6),  # the last rest is dropped
        ("down 5", "countdown", 5),
    ],
)
def test_each_form_is_a_clock_of_a_format(line: str, format_: str, minutes: float) -> None:
    assert line in FORMS
    segment = first(line)
    assert segment.format == format_
    assert timeline(segment).total == round(minutes * MINUTE)
    assert timeline(segment).counts_up == (format_ == "capped-for-time")


@pytest.mark.parametrize("form", FORMS)
def test_every_form_that_is_shown_reads_in_each_way_as_a_class_of_its_own(form: str) -> None:
    for way in ways(form):
        plan_file = open_class(way.segment)
        read, findings = parse_plan(plan_file.text, "open-class.toml")
        assert not [one for one in findings if one.level == "error"]
        assert read == plan_file.plan
        assert is_piece(way.segment) == (way.scored != NOT_SCORED)


def test_every_format_that_is_no_lift_has_a_form() -> None:
    assert {first(form).format for form in FORMS} == {
        "rounds-in-time",
        "capped-for-time",
        "interval",
        "countdown",
    }


@pytest.mark.parametrize(
    ("line", "same"),
    [
        ("Rounds  12", "rounds 12"),
        ("round in 12 min", "rounds 12"),
        ("rounds 12:00", "rounds 12"),
        ("For time, cap 15:00", "for time 15"),
        ("8x20/10", "8 x 20/10"),
        ("8 X 0:20 / 0:10", "8 x 20/10"),
        ("8 \N{MULTIPLICATION SIGN} 20 s/10sec", "8 x 20/10"),
        ("8*20/10", "8 x 20/10"),
        ("5 x 2 min", "5 x 2:00"),
        ("countdown 5", "down 5"),
        ("down 90 s", "down 1:30"),
    ],
)
def test_the_same_is_meant_however_it_is_typed(line: str, same: str) -> None:
    assert ways(line) == ways(same)


def test_rounds_are_scored_as_rounds_unless_they_are_reps_a_load_or_nothing() -> None:
    scored = {way.scored: way.segment for way in ways("rounds 12")}
    assert list(scored) == ["rounds", "reps", "load", NOT_SCORED]
    assert [one.counting.counts_by for one in scored.values()] == [
        "rounds",
        "reps",
        "load",
        "nothing",
    ]
    assert {timeline(one).total for one in scored.values()} == {12 * MINUTE}


def test_a_countdown_and_an_interval_are_likeliest_not_scored() -> None:
    for line in ("down 5", "8 x 20/10"):
        assert ways(line)[0].scored == NOT_SCORED
    rules = [way.segment.counting.interval_rule for way in ways("8 x 20/10")]
    assert rules == [None, "total", "lowest", None]


def test_of_work_for_time_there_is_nothing_to_call_but_its_finish() -> None:
    (only,) = ways("for time 15")
    assert (only.scored, only.segment.counting.count) == ("time", "finish")


minutes = st.integers(1, 180).map(str)
lengths = st.builds("{}:{:02}".format, st.integers(1, 170), st.integers(0, 59))
times = minutes | lengths | st.integers(1, 9_999).map("{} s".format)
seconds = st.integers(SHORTEST_WORK // 1000, 60).map(str)
lines = st.one_of(
    st.builds("rounds {}".format, times),
    st.builds("for time {}".format, times),
    st.builds("down {}".format, times),
    st.builds("{} x {}/{}".format, st.integers(1, 60), seconds, seconds),
    st.builds("{} x {}".format, st.integers(1, 60), seconds | lengths),
)


@given(lines)
def test_the_name_of_a_clock_is_a_line_that_reads_as_the_same_clock(line: str) -> None:
    read = read_clock_line(line)
    if isinstance(read, NoClock):  # longer than three hours
        return
    assert read_clock_line(read[0].segment.name) == read


@given(lines)
def test_what_is_read_is_written_as_a_plan_and_read_again(line: str) -> None:
    read = read_clock_line(line)
    for way in read if not isinstance(read, NoClock) else ():
        assert segment_of(segment_text(way.segment), "kg") == way.segment
        assert Plan(title="any", segment=(way.segment,))
        assert 0 < timeline(way.segment).total <= LONGEST


@given(st.text(max_size=40) | st.from_regex(r"[a-z]{0,9} ?[0-9x/:. ]{0,12}", fullmatch=True))
def test_no_line_raises_and_what_is_proposed_can_be_read(line: str) -> None:
    read = read_clock_line(line)
    if not isinstance(read, NoClock):
        assert read
    elif read.instead is not None:
        assert f'write "{read.instead}"' in read.why
        assert not isinstance(read_clock_line(read.instead), NoClock)
    else:
        assert all(form in read.why for form in FORMS)


@pytest.mark.parametrize(
    ("line", "instead"),
    [
        ("runds 12", "rounds 12"),
        ("12 rounds", "rounds 12"),
        ("rounds", "rounds 12"),
        ("rounds 12.30", "rounds 12:30"),
        ("rounds 1230", "rounds 12:30"),
        ("down 500", "down 5:00"),
        ("time 15", "for time 15"),
        ("for tme 9:30", "for time 9:30"),
        ("5 rounds for time 15", "for time 15"),
        ("down 0", "down 12"),
        ("down 1:99", "down 12"),
        ("4 x 3/1", "4 x 3:00/1:00"),
        ("8 x 20 on 10 off", "8 x 20/10"),
        ("6x30 hard", "6 x 30"),
        ("8 x 20/0", "8 x 20/10"),
        ("8 x", "8 x 20/10"),
        ("500 x 20", "8 x 20/10"),
    ],
)
def test_what_cant_be_read_is_answered_with_the_nearest_form(line: str, instead: str) -> None:
    assert refused(line).instead == instead


@pytest.mark.parametrize("line", ["turntable", "week-9", "plans/tuesday.toml", "12", ""])
def test_a_word_of_another_kind_is_no_clock_and_near_to_none(line: str) -> None:
    assert refused(line).instead is None


def test_what_is_no_plan_is_no_segment() -> None:
    with pytest.raises(ValueError, match="format"):
        segment_of('title = "x"\n[[segment]]\nname = "x"\n', "kg")
