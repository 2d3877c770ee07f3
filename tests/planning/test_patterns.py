"""What the last weeks held, counted from their plans."""

import datetime as dt
from collections import Counter
from pathlib import Path

from hypothesis import given
from hypothesis import strategies as st

from classclock.club.plan_files import read_plan
from classclock.machine.bundled import bundled
from classclock.plan.model import Plan
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.patterns import hard_piece, held, last_weeks

PLANS = sorted(bundled("plans").glob("*.toml"))
MONDAY = dt.date(2026, 3, 30)
DAY = dt.timedelta(days=1)


def sample(name: str) -> Plan:
    plan, _ = read_plan(next(file for file in PLANS if file.stem == name))
    assert plan is not None
    return plan


def plan_of(*segments: str) -> Plan:
    text = "".join(f'[[segment]]\nname = "part {n}"\n{one}\n' for n, one in enumerate(segments))
    plan, findings = parse_plan(f'title = "Depot"\n{text}', "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan


def lift_of(name: str) -> Plan:
    lift = f'format = "countdown"\ntime = "15:00"\nscore = "load"\nlift = "{name}"'
    return plan_of(lift)


def test_a_week_of_sample_plans_is_counted_by_pattern_and_by_length() -> None:
    # Counted by hand from the files: Turntable 16:00, Headway 18:00, Third Rail 12:00.
    week = [(MONDAY, "turntable"), (MONDAY + 2 * DAY, "headway"), (MONDAY + 3 * DAY, "third-rail")]
    weeks = last_weeks([held(day, sample(name)) for day, name in week], starter_library())
    assert weeks.classes == 3
    assert weeks.patterns == {
        "squat": 3,
        "hinge": 1,
        "push": 2,
        "pull": 1,
        "carry": 0,
        "jump": 0,
        "row/run": 1,
        "trunk": 1,
    }
    assert weeks.lengths == {"under 8:00": 0, "8:00 to 15:00": 1, "over 15:00": 2}
    assert weeks.unknown == ()


def test_a_pattern_heavy_on_two_days_running_is_pointed_out_in_words() -> None:
    days = [held(MONDAY + DAY, lift_of("Power Clean")), held(MONDAY, lift_of("deadlift"))]
    weeks = last_weeks(days, starter_library())
    assert [str(one) for one in weeks.heavy_twice] == [
        "hinge, heavy, on Mon 30 Mar (deadlift) and Tue 31 Mar (Power Clean)"
    ]


def test_a_day_between_another_pattern_or_a_light_day_is_nothing_to_point_out() -> None:
    swings = plan_of(
        'format = "rounds-in-time"\ntime = "9:00"\n[[segment.station]]\n'
        'movement = "kettlebell swing"\nreps = 9'
    )
    for day, plan in (
        (MONDAY + 2 * DAY, lift_of("deadlift")),
        (MONDAY + DAY, lift_of("front squat")),
        (MONDAY + DAY, swings),
        (MONDAY, lift_of("deadlift")),
    ):
        days = [held(MONDAY, lift_of("deadlift")), held(day, plan)]
        assert last_weeks(days, starter_library()).heavy_twice == ()


def test_the_hard_piece_is_the_benchmark_never_the_lift() -> None:
    plain = (
        'format = "rounds-in-time"\ntime = "{}"\n{}[[segment.station]]\nmovement = "row"\nreps = 9'
    )
    lift = 'format = "countdown"\ntime = "15:00"\nscore = "load"\nlift = "deadlift"'
    marked = plain.format("9:00", 'benchmark = "siding"\n')
    both = plan_of(marked, lift, plain.format("5:00", ""))
    assert hard_piece(both) is both.segment[0]
    unmarked = plan_of(plain.format("9:00", ""), plain.format("5:00", ""), lift)
    assert hard_piece(unmarked) is unmarked.segment[1]
    assert hard_piece(plan_of(lift)) is None


def test_lengths_change_over_at_eight_and_after_fifteen_minutes() -> None:
    for time, word in (
        ("7:59", "under 8:00"),
        ("8:00", "8:00 to 15:00"),
        ("15:00", "8:00 to 15:00"),
        ("15:01", "over 15:00"),
        ("24:00:00", "over 15:00"),
    ):
        piece = f'format = "rounds-in-time"\ntime = "{time}"\n[[segment.station]]\nmovement = "row"'
        weeks = last_weeks([held(MONDAY, plan_of(f"{piece}\nreps = 9"))], starter_library())
        assert weeks.lengths[word] == 1, time


def test_what_the_library_doesnt_know_is_named_not_guessed() -> None:
    weeks = last_weeks([held(MONDAY, lift_of("tram pull"))], starter_library())
    assert weeks.unknown == ("tram pull",)
    assert not any(weeks.patterns.values())


@given(st.lists(st.tuples(st.integers(0, 6), st.sampled_from(PLANS)), max_size=8))
def test_the_order_of_the_classes_changes_nothing_and_each_counts_once(
    days: list[tuple[int, Path]],
) -> None:
    dated = [held(MONDAY + day * DAY, sample(file.stem)) for day, file in days]
    weeks = last_weeks(dated, starter_library())
    back = last_weeks(dated[::-1], starter_library())
    assert (back.patterns, back.lengths) == (weeks.patterns, weeks.lengths)
    assert sum(weeks.lengths.values()) == len(dated), "every sample has one hard piece"
    singles: Counter[str] = Counter()
    for one in dated:
        singles.update(last_weeks([one], starter_library()).patterns)
    assert dict(weeks.patterns) == {key: singles[key] for key in weeks.patterns}
    running = {(one.first - MONDAY).days for one in weeks.heavy_twice}
    assert all(day in {d for d, _ in days} and day + 1 in {d for d, _ in days} for day in running)
