from collections.abc import Callable
from itertools import pairwise
from typing import Any, NamedTuple

import pytest

from classclock.plan.formats.timelines import length, timeline
from classclock.plan.model import Segment
from classclock.units.times import parse_time, show_time

Write = Callable[..., Segment]


class Protocol(NamedTuple):
    repeat: int
    work: str
    rest: str
    without: str
    """How long it lasts without the last rest, and with it."""
    with_it: str

    def keys(self) -> dict[str, Any]:
        return {"repeat": self.repeat, "steps": [{"work": self.work}, {"rest": self.rest}]}


# The patterns are the papers', the totals are worked out from them: n work lengths, and n or
# n - 1 rests.
PUBLISHED = {
    "worked": Protocol(8, "0:20", "0:10", "3:50", "4:00"),
    "Tabata et al., Med Sci Sports Exerc 28 (1996) 1327": Protocol(
        7, "0:20", "0:10", "3:20", "3:30"
    ),
    "Helgerud et al., Med Sci Sports Exerc 39 (2007) 665": Protocol(
        4, "4:00", "3:00", "25:00", "28:00"
    ),
    "Gibala et al., J Physiol 575 (2006) 901": Protocol(4, "0:30", "4:00", "14:00", "18:00"),
    "Hov et al., Scand J Med Sci Sports 33 (2023) 146": Protocol(
        10, "0:30", "3:30", "36:30", "40:00"
    ),
}
published = pytest.mark.parametrize("protocol", PUBLISHED.values(), ids=PUBLISHED)


@published
def test_an_interval_piece_lasts_as_long_as_the_published_protocol(
    write: Write, protocol: Protocol
) -> None:
    dropped = timeline(write("interval", **protocol.keys()))
    kept = timeline(write("interval", **protocol.keys(), keep_last_rest=True))
    assert (show_time(dropped.total), show_time(kept.total)) == (protocol.without, protocol.with_it)
    assert length(write("interval", **protocol.keys())) == dropped.total
    assert length(write("capped-for-time", cap="12:00", rounds=3)) == 720_000


@published
def test_n_steps_of_work_have_2n_minus_2_inner_changes(write: Write, protocol: Protocol) -> None:
    line = timeline(write("interval", **protocol.keys()))
    steps = line.spans[1:]
    assert line.steps == protocol.repeat
    assert len(steps) - 1 == 2 * protocol.repeat - 2
    numbers = [span.number for span in steps if span.kind == "work"]
    assert numbers == list(range(1, protocol.repeat + 1))


def test_a_published_session_lasts_40_minutes_when_the_last_rest_is_dropped(write: Write) -> None:
    """10:00 warm-up, 4 x 4:00/3:00, 5:00 cool-down: Hatle et al., PLoS ONE 9 (2014) e88375."""
    session = [
        write("countdown", time="10:00"),
        write("interval", repeat=4, steps=[{"work": "4:00"}, {"rest": "3:00"}]),
        write("countdown", time="5:00"),
    ]
    assert sum(timeline(segment).total for segment in session) == parse_time("40:00")


def test_only_the_very_last_step_is_dropped_and_only_if_it_is_a_rest(write: Write) -> None:
    ends_in_work = write("interval", repeat=2, steps=[{"rest": 5}, {"work": 10}])
    assert timeline(ends_in_work).total == 30_000
    two_rests = write("interval", repeat=2, steps=[{"work": 10}, {"rest": 5}, {"rest": 7}])
    assert timeline(two_rests).total == (10 + 5 + 7 + 10 + 5) * 1000


def test_a_segment_of_one_rest_keeps_it(write: Write) -> None:
    assert timeline(write("interval", repeat=1, steps=[{"rest": 60}])).total == 60_000


def test_a_rest_bears_the_number_of_the_work_before_it(write: Write) -> None:
    steps = [{"rest": 5}, {"work": 10}, {"work": 10}, {"rest": 5}]
    line = timeline(write("interval", repeat=1, steps=steps, keep_last_rest=True))
    assert [(span.kind, span.number) for span in line.spans[1:]] == [
        ("rest", 0),
        ("work", 1),
        ("work", 2),
        ("rest", 2),
    ]


def test_steps_keep_their_labels_and_stations(write: Write) -> None:
    steps = [
        {"work": "1:00", "label": "row", "stations": ["row"]},
        {"work": "1:00", "label": "squat", "stations": ["bodyweight squat"]},
    ]
    line = timeline(write("interval", repeat=2, steps=steps))
    assert [span.label for span in line.spans[1:]] == ["row", "squat"] * 2
    assert [span.stations for span in line.spans[1:]] == [("row",), ("bodyweight squat",)] * 2


def test_the_spans_follow_each_other_without_a_gap(write: Write) -> None:
    steps = [{"work": "0:40"}, {"rest": "0:20"}]
    spans = timeline(write("interval", repeat=5, steps=steps)).spans
    assert spans[0].start == -10_000
    assert spans[1].start == 0
    assert all(before.end == after.start for before, after in pairwise(spans))


@pytest.mark.parametrize(
    ("kind", "keys", "way"),
    [
        ("countdown", {"time": "12:00"}, "down"),
        ("rounds-in-time", {"time": "12:00"}, "down"),
        ("rounds-in-time", {"time": "12:00", "direction": "up"}, "up"),
        ("capped-for-time", {"cap": "12:00"}, "up"),
    ],
)
def test_a_piece_in_one_stretch_counts_the_way_its_format_says(
    write: Write, kind: str, keys: dict[str, str], way: str
) -> None:
    line = timeline(write(kind, **keys))
    assert (line.total, line.steps, line.counts_up) == (720_000, 1, way == "up")


def test_a_minute_more_moves_the_end_and_its_cues(write: Write) -> None:
    line = timeline(write("countdown", time="8:00"), total=parse_time("9:00"))
    assert line.total == parse_time("9:00")
    assert [(cue.kind, show_time(cue.at)) for cue in line.cues if cue.at > 0] == [
        ("halfway", "4:30"),
        ("last-minute", "8:00"),
        ("last-ten", "8:50"),
        ("end", "9:00"),
    ]


def test_an_interval_piece_keeps_its_length(write: Write) -> None:
    segment = write("interval", repeat=2, steps=[{"work": 20}])
    with pytest.raises(ValueError, match="change its steps or its repeat"):
        timeline(segment, total=60_000)


@pytest.mark.parametrize(
    ("steps", "headline", "turns"),
    [
        ([{"work": "2:00"}], "3 x 2:00", []),
        ([{"work": "2:00", "label": "5 reps"}], "3 x 2:00", ["5 reps"]),
        ([{"work": "0:40"}, {"rest": "0:20"}], "3 x", ["0:40 work", "0:20 rest"]),
        (
            [
                {"work": "0:45", "label": "row", "stations": ["row"]},
                {"rest": "0:15", "label": "change"},
                {"work": "0:30", "label": "hang"},
            ],
            "3 x",
            ["0:45", "0:15 rest, change", "0:30 hang"],
        ),
    ],
)
def test_steps_are_written_under_each_other(
    write: Write, steps: list[dict[str, Any]], headline: str, turns: list[str]
) -> None:
    """Common practice, no source: how a coach writes intervals on a board."""
    segment = write("interval", repeat=3, steps=steps)
    assert segment.headline() == headline
    assert [turn.words for turn in segment.turns()] == turns


def test_a_set_amount_of_work_is_headed_by_its_numbers(write: Write) -> None:
    station = [{"movement": "row"}]
    scheme = write("capped-for-time", cap="9:00", scheme=[18, 12, 6], station=station)
    assert (scheme.headline(), scheme.terms()) == ("18-12-6", " for time, cap 9:00, 36 reps")
    rounds = write("rounds-in-time", time="8:00", station=[{"movement": "row", "reps": 9}])
    assert (rounds.headline(), rounds.terms()) == ("rounds in 8:00", ", 9 reps a round")
