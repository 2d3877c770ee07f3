from collections.abc import Callable
from itertools import pairwise
from typing import get_args

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.clock.cues import APART_MS, RULES, SIGNALS, CueKind, cues_of
from classclock.clock.span import Span
from classclock.plan.editing.starts import plan_of
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import FORMATS, Segment
from classclock.plan.reading.plan_reading import parse_plan

Write = Callable[..., Segment]


def heard(segment: Segment) -> list[tuple[str, float]]:
    return [(cue.kind, cue.at / 1000) for cue in timeline(segment).cues]


def test_three_two_one_and_go(write: Write) -> None:
    assert heard(write("countdown", time="0:20")) == [
        ("short", -3),
        ("short", -2),
        ("short", -1),
        ("go", 0),
        ("end", 20),
    ]


@pytest.mark.parametrize(
    ("time", "kinds"),
    [
        ("0:59.999", ["end"]),
        ("1:00", ["last-ten", "end"]),
        ("2:59.999", ["last-ten", "end"]),
        ("3:00", ["halfway", "last-minute", "last-ten", "end"]),
    ],
)
def test_a_short_segment_leaves_out_what_makes_no_sense_in_it(
    write: Write, time: str, kinds: list[str]
) -> None:
    segment = write("rounds-in-time", time=time)
    assert [kind for kind, at in heard(segment) if at > 0] == kinds


def test_what_is_left_is_left_of_the_whole_segment_and_not_of_a_step(write: Write) -> None:
    segment = write("interval", repeat=5, steps=[{"work": 50}], cues={"step": False})
    assert [cue for cue in heard(segment) if cue[1] > 0] == [
        ("halfway", 125),
        ("last-minute", 190),
        ("last-ten", 240),
        ("end", 250),
    ]


def test_three_short_before_each_change_and_the_change_itself(write: Write) -> None:
    segment = write("interval", repeat=2, steps=[{"work": 20}, {"rest": 10}])
    inner = [cue for cue in heard(segment) if 0 < cue[1] <= 30]
    assert inner == [
        *[("short", 17), ("short", 18), ("short", 19), ("rest", 20)],
        *[("short", 27), ("short", 28), ("short", 29), ("go", 30)],
    ]
    assert ("short", 47) not in heard(segment), "the end is no change of step"


def test_warnings_stay_inside_a_short_step(write: Write) -> None:
    segment = write("interval", repeat=2, steps=[{"work": 20}, {"rest": 2}])
    assert [cue for cue in heard(segment) if 20 <= cue[1] <= 22] == [
        ("rest", 20),
        ("short", 21),
        ("go", 22),
    ]


def test_go_is_heard_before_a_first_step_of_three_seconds(write: Write) -> None:
    segment = write("interval", repeat=1, steps=[{"work": 3}, {"work": 20}])
    assert heard(segment)[3:7] == [("go", 0), ("short", 1), ("short", 2), ("go", 3)]


def test_of_two_cues_within_a_second_the_later_in_the_list_is_heard(write: Write) -> None:
    segment = write("interval", repeat=2, steps=[{"work": "3:00"}])
    assert ("halfway", 180) in heard(segment), "the change of step gives way"
    assert ("go", 180) not in heard(segment)
    assert ("short", 179) in heard(segment), "a whole second apart, both are heard"


def test_a_change_half_a_second_before_the_last_ten_gives_way(write: Write) -> None:
    segment = write("interval", repeat=1, steps=[{"work": "1:49.5"}, {"work": "0:10.5"}])
    kinds = [cue for cue in heard(segment) if 109 < cue[1] <= 110]
    assert kinds == [("last-ten", 110)]


SWITCHES = {
    "count_in": {"short", "go"},
    "halfway": {"halfway"},
    "last_minute": {"last-minute"},
    "last_ten": {"last-ten"},
    "end": {"end"},
}


@pytest.mark.parametrize("switch", SWITCHES)
def test_the_plan_can_switch_each_cue_off(write: Write, switch: str) -> None:
    loud = write("rounds-in-time", time="16:00")
    quiet = write("rounds-in-time", time="16:00", cues={switch: False})
    kinds = {kind for kind, _ in heard(loud)}
    assert {kind for kind, _ in heard(quiet)} == kinds - SWITCHES[switch]


def test_the_plan_can_switch_the_changes_of_step_off(write: Write) -> None:
    steps = [{"work": 20}, {"rest": 10}]
    segment = write("interval", repeat=3, steps=steps, cues={"step": False})
    assert [at for _, at in heard(segment)] == [-3, -2, -1, 0, 70, 80]


def test_every_cue_is_heard_in_some_format_and_every_rule_is_some_formats() -> None:
    plans = [parse_plan(plan_of(form), "depot.toml")[0] for form in FORMATS]
    segments = [segment for plan in plans if plan for segment in plan.segment]
    assert {kind for segment in segments for kind, _ in heard(segment)} == set(get_args(CueKind))
    named = {rule.switch for segment in segments for rule in segment.about.cues}
    assert named == {rule.switch for rule in RULES if not rule.everywhere}


def test_every_cue_but_the_countdown_has_a_word_of_its_own() -> None:
    words = [signal.word for signal in SIGNALS.values()]
    assert [kind for kind, signal in SIGNALS.items() if not signal.word] == ["short"]
    assert len(set(words)) == len(words)


step_lengths = st.lists(st.integers(1, 200_000), min_size=1, max_size=12)


@given(step_lengths, st.sets(st.sampled_from([rule.switch for rule in RULES])))
def test_cues_never_come_within_a_second_of_each_other(lengths: list[int], off: set[str]) -> None:
    ends = [sum(lengths[: n + 1]) for n in range(len(lengths))]
    spans = tuple(
        Span("work", end - length, end) for end, length in zip(ends, lengths, strict=True)
    )
    own = [rule for rule in RULES if not rule.everywhere]
    cues = cues_of(spans, own, off)
    assert all(after.at - before.at >= APART_MS for before, after in pairwise(cues))
    assert all(-3000 <= cue.at <= ends[-1] for cue in cues)
    assert all(isinstance(cue.at, int) for cue in cues), "whole milliseconds"
    if "end" not in off:
        assert (cues[-1].at, cues[-1].kind) == (ends[-1], "end")
