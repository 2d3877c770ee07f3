"""How long a plan lasts and how much work it is, in the words of the wall."""

from collections.abc import Callable

import pytest

from classclock.plan.model import Plan, Segment
from classclock.plan.outline import (
    describe,
    outline,
    station_line,
)
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.times import show_time


def plan_of(text: str) -> Plan:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan


@pytest.fixture
def segment(as_plan: Callable[[str], str]) -> Callable[[str], Segment]:
    return lambda lines: plan_of(as_plan(lines)).segment[0]


def interval(repeat: int, work: str, rest: str) -> str:
    steps = f'steps = [{{ work = "{work}" }}, {{ rest = "{rest}" }}]'
    return f'format = "interval"\nrepeat = {repeat}\n{steps}\n'


# Protocols as published; the totals follow from them.
@pytest.mark.parametrize(
    ("steps", "totals"),
    [
        # Tabata et al., Med Sci Sports Exerc 28 (1996) 1327: seven to eight of 20 s, 10 s apart.
        ((8, "0:20", "0:10"), ("3:50", "4:00")),
        ((7, "0:20", "0:10"), ("3:20", "3:30")),
        # Helgerud et al., Med Sci Sports Exerc 39 (2007) 665: four of 4 min, 3 min apart.
        ((4, "4:00", "3:00"), ("25:00", "28:00")),
        # Gibala et al., J Physiol 575 (2006) 901: four of 30 s, 4 min apart.
        ((4, "0:30", "4:00"), ("14:00", "18:00")),
        # Hov et al., Scand J Med Sci Sports 33 (2023) 146: ten of 30 s, 3.5 min apart.
        ((10, "0:30", "3:30"), ("36:30", "40:00")),
    ],
)
def test_published_intervals_last_as_long_as_they_say(
    steps: tuple[int, str, str], totals: tuple[str, str], as_plan: Callable[[str], str]
) -> None:
    lines = interval(*steps)
    dropped = outline(plan_of(as_plan(lines)))
    kept = outline(plan_of(as_plan(lines + "keep_last_rest = true")))
    assert (show_time(dropped.total_ms), show_time(kept.total_ms)) == totals
    assert dropped.segments[0].words == "{} x {} work, {} rest".format(*steps)


def test_a_published_session_of_40_minutes_lasts_40_minutes() -> None:
    # Hatle et al., PLoS ONE 9 (2014) e88375: 10 min, 4 x 4 min with 3 min between, 5 min.
    plan = plan_of(f"""
title = "Session"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "10:00"
[[segment]]
name = "Intervals"
{interval(4, "4:00", "3:00")}
[[segment]]
name = "Cool-down"
format = "countdown"
time = "5:00"
count_in = "0:05"
""")
    total = outline(plan)
    assert total.total_ms == 40 * 60_000
    assert total.total_with_count_ins_ms == 40 * 60_000 + 10_000 + 10_000 + 5_000


STATIONS = """
[[segment.station]]
movement = "box step-over"
reps = 6
[[segment.station]]
movement = "row"
calories = 9
[[segment.station]]
movement = "run"
metres = 400
counts = 12
"""
CLIMB = """
[[segment.station]]
movement = "sit-up"
climb = { first = 4, step = 4 }
"""
BARE = '\n[[segment.station]]\nmovement = "sit-up"\n'
ONE = f"{BARE}reps = 1\n"


@pytest.mark.parametrize(
    ("lines", "words"),
    [
        ('format = "countdown"\ntime = "8:00"', "8:00"),
        ('format = "countdown"\ntime = "8:00"\nscore = "load"', "heaviest load in 8:00"),
        ('format = "countdown"\ntime = "8:00"\nscore = "reps"', "most reps in 8:00"),
        ('format = "interval"\nrepeat = 5\nsteps = [{ work = "2:00" }]', "5 x 2:00 work"),
        (
            """format = "interval"
repeat = 3
score = "lowest"
steps = [{ work = "1:00" }, { work = "0:30" }, { rest = "0:30" }]""",
            "3 x (1:00 work, 0:30 work, 0:30 rest), lowest interval",
        ),
        (
            f'format = "rounds-in-time"\ntime = "16:00"{STATIONS}',
            "rounds in 16:00, 27 reps a round",
        ),
        (
            f'format = "rounds-in-time"\ntime = "16:00"\nteams = 2{CLIMB}',
            "rounds in 16:00, 4 reps in the first round, 8 in the second, and so on, in teams of 2",
        ),
        (
            f'format = "capped-for-time"\ncap = "12:00"\nrounds = 3{STATIONS}',
            "3 rounds for time, cap 12:00, 81 reps",
        ),
        (
            f'format = "capped-for-time"\ncap = "12:00"\nrounds = 1{CLIMB}',
            "1 round for time, cap 12:00, 4 reps",
        ),
        (
            f'format = "rounds-in-time"\ntime = "16:00"{ONE}',
            "rounds in 16:00, 1 rep a round",
        ),
        (
            f'format = "capped-for-time"\ncap = "12:00"\nrounds = 1{ONE}',
            "1 round for time, cap 12:00, 1 rep",
        ),
        (
            f'format = "capped-for-time"\ncap = "10:00"\nscheme = [18, 12, 6]{BARE}{BARE}',
            "18-12-6 for time, cap 10:00, 72 reps",
        ),
    ],
)
def test_a_format_is_said_as_the_wall_says_it(
    lines: str, words: str, segment: Callable[[str], Segment]
) -> None:
    assert describe(segment(lines)) == words


def test_a_climb_over_five_rounds_is_added_up(segment: Callable[[str], Segment]) -> None:
    piece = segment(f'format = "capped-for-time"\ncap = "12:00"\nrounds = 5{CLIMB}')
    assert [piece.round_reps(index) for index in range(5)] == [4, 8, 12, 16, 20]
    # The sum of an arithmetic series: n (first + last) / 2.
    assert piece.total_reps == 5 * (4 + 20) // 2


def test_stations_and_options_read_as_a_coach_says_them(
    segment: Callable[[str], Segment],
) -> None:
    piece = segment("""format = "rounds-in-time"
time = "16:00"
[[segment.station]]
movement = "push press"
reps = 9
load = { heavier = "22.5 kg", lighter = "15.0 kg" }
options = ["one arm at a time", { name = "seated press", reps = 6, load = "10 kg" }]
[[segment.station]]
movement = "run"
metres = 400
[[segment.station]]
movement = "row"
calories = 15
[[segment.station]]
movement = "plank hold"
seconds = 90
[[segment.station]]
movement = "pull-up"
climb = { first = 4, step = 4 }
""")
    assert [station_line(station) for station in piece.station] == [
        "9 push press, 22.5 kg / 15 kg",
        "400 m run",
        "15 cal row",
        "1:30 plank hold",
        "4, 8, 12, … pull-up",
    ]
    press = piece.station[0]
    assert [station_line(press, option) for option in press.options] == [
        "9 one arm at a time, 22.5 kg / 15 kg",
        "6 seated press, 10 kg",
    ]


def test_only_pieces_with_rounds_have_a_round_and_only_capped_ones_a_total(
    segment: Callable[[str], Segment],
) -> None:
    for lines, reps in (
        (f'format = "rounds-in-time"\ntime = "16:00"{STATIONS}', (27, None)),
        (f'format = "capped-for-time"\ncap = "16:00"\nrounds = 2{STATIONS}', (27, 54)),
        (f'format = "countdown"\ntime = "16:00"{STATIONS}', (None, None)),
    ):
        plan = Plan(title="Depot", segment=(segment(lines),))
        (one,) = outline(plan).segments
        assert (one.round_reps, one.total_reps) == reps


def test_an_option_that_drops_the_stations_load_is_shown_without_one(
    segment: Callable[[str], Segment],
) -> None:
    lines = """format = "rounds-in-time"
time = "16:00"
[[segment.station]]
movement = "goblet squat"
reps = 14
load = "20 kg"
options = ["both feet wider", { name = "bodyweight squat", keep_load = false }]"""
    (squat,) = segment(lines).station
    assert [station_line(squat, option) for option in squat.options] == [
        "14 both feet wider, 20 kg",
        "14 bodyweight squat",
    ]
