"""What a plan leaves out comes from the library; what it says wins, and can be written down."""

from collections.abc import Callable
from pathlib import Path

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.club.plan_files import read_plan
from classclock.machine.bundled import bundled
from classclock.plan.cautions import cautions_of
from classclock.plan.editing.writing import plan_text
from classclock.plan.model import Plan, Segment
from classclock.plan.movements.completing import complete, complete_file
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.units.times import Milliseconds

PLANS = sorted(bundled("plans").glob("*.toml"))
PIECE = 'format = "rounds-in-time"\ntime = "16:00"\n'


def plan_of(text: str) -> Plan:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, [str(one) for one in findings]
    return plan


@pytest.fixture
def completed(as_plan: Callable[[str], str]) -> Callable[[str], Segment]:
    return lambda lines: complete(plan_of(as_plan(lines)), starter_library()).segment[0]


def test_a_station_takes_standard_options_and_cautions_from_its_movement(
    completed: Callable[[str], Segment],
) -> None:
    segment = completed(f'{PIECE}[[segment.station]]\nmovement = "Box Step-overs"\nreps = 6')
    (station,) = segment.station
    assert station.movement == "Box Step-overs", "the plan's own word stays"
    assert station.standard == "both feet on the box"
    assert [one.name for one in station.options] == ["step over a line", "step-up", "lower box"]
    assert station.points, "what to coach comes too"
    assert station.caution == ("Step down from the box, don't jump.",)


def test_what_the_plan_says_wins_and_its_options_keep_their_numbers(
    completed: Callable[[str], Segment],
) -> None:
    segment = completed(
        f'{PIECE}caution = ["Mind the rail.", "step down from the box: don\'t jump!"]\n'
        '[[segment.station]]\nmovement = "box step-over"\nreps = 6\nstandard = "one foot will do"\n'
        'options = ["pit ladder", { name = "Step-ups", reps = 4 }]'
    )
    (station,) = segment.station
    assert station.standard == "one foot will do"
    assert [one.name for one in station.options] == [
        "pit ladder",
        "Step-ups",
        "step over a line",
        "lower box",
    ]
    assert station.options[1].reps == 4
    assert cautions_of(segment, "") == ("Mind the rail.", "step down from the box: don't jump!")


def test_a_lift_brings_its_cautions(completed: Callable[[str], Segment]) -> None:
    segment = completed('format = "countdown"\ntime = "15:00"\nlift = "Bench Press"')
    assert segment.caution[0] == "Never alone: a spotter, or safety bars."
    assert segment.points


def test_an_option_is_offered_only_if_it_can_be_counted_as_the_station_is(
    completed: Callable[[str], Segment],
) -> None:
    row = '[[segment.station]]\nmovement = "row"\n'
    calories = completed(f"{PIECE}{row}calories = 15").station[0]
    assert [one.name for one in calories.options] == ["row at talking pace", "bike"]
    metres = completed(f"{PIECE}{row}metres = 500\ncounts = 5").station[0]
    assert metres.options[0].name == "brisk walk"


def test_an_option_without_the_weight_doesnt_keep_the_stations_load(
    completed: Callable[[str], Segment],
) -> None:
    piece = '[[segment.station]]\nmovement = "goblet squat"\nreps = 9\nload = "20 kg"'
    options = completed(PIECE + piece).station[0].options
    assert {one.name: one.keep_load for one in options} == {
        "squat to a box": False,
        "bodyweight squat": False,
        "lighter bell": False,
    }


def test_a_movement_nobody_knows_is_left_as_it_is(completed: Callable[[str], Segment]) -> None:
    (station,) = completed(f'{PIECE}[[segment.station]]\nmovement = "xyzzy"\nreps = 6').station
    assert (station.standard, station.options) == (None, ())


@pytest.mark.parametrize("file", PLANS, ids=lambda file: file.stem)
def test_a_completed_plan_written_down_reads_as_the_same_plan(file: Path) -> None:
    plan, _ = read_plan(file)
    assert plan is not None
    whole = complete(plan, starter_library())
    assert complete(whole, starter_library()) == whole, "once is enough"
    for one in (plan, whole):
        assert parse_plan(plan_text(one), "depot.toml") == (one, ())


@pytest.mark.parametrize("file", PLANS, ids=lambda file: file.stem)
def test_completing_takes_nothing_away_and_moves_no_option(file: Path) -> None:
    plan, _ = read_plan(file)
    assert plan is not None
    for before, after in zip(plan.segment, complete(plan, starter_library()).segment, strict=True):
        assert after.caution[: len(before.caution)] == before.caution
        for station, filled in zip(before.station, after.station, strict=True):
            assert filled.options[: len(station.options)] == station.options
            assert filled.standard
            assert station.standard in (None, filled.standard)


WORDS = st.text(st.characters(exclude_categories=["C", "Z"]), min_size=1)


@given(
    st.lists(WORDS, min_size=1, max_size=3),
    st.integers(min_value=1, max_value=86_400_000),
    st.dictionaries(WORDS, st.sampled_from(["20 kg", "45 lb", "2.5 kg"]), min_size=1, max_size=2),
    st.floats(min_value=0.001, max_value=120),
)
def test_whatever_a_plan_says_can_be_written_down(
    names: list[str], ms: int, load: dict[str, str], percent: float
) -> None:
    segment = plan_of(
        'title = "t"\n[[segment]]\nname = "n"\nformat = "countdown"\ntime = 90\nlift = "row"\n'
        "sets = [{ reps = 3, percent = 70 }]\n"
    ).segment[0]
    values = {**segment.model_dump(), "lines": names, "load": load, "time": Milliseconds(ms)}
    values["cues"] = {"halfway": False}
    values["sets"] = [{"reps": 3, "percent": percent}, {"reps": 1, "load": load}]
    plan = Plan.model_validate({"title": names[0], "segment": [values]})
    assert parse_plan(plan_text(plan), "depot.toml") == (plan, ())


def test_a_plan_file_is_completed_with_its_text_so_that_a_journal_can_be_replayed() -> None:
    text = f'title = "D"\n[[segment]]\nname = "T"\n{PIECE}[[segment.station]]\nmovement = "row"\n'
    text += "calories = 15\n"
    whole = complete_file(PlanFile("t", text, plan_of(text)), starter_library())
    assert plan_of(whole.text) == whole.plan
    assert whole.plan.segment[0].station[0].options
    again = complete_file(whole, starter_library())
    assert again is whole


def test_a_piece_has_no_more_options_than_digits_and_every_station_keeps_its_easiest(
    completed: Callable[[str], Segment],
) -> None:
    names = ("box step-over", "push-up", "bodyweight squat", "goblet squat", "push press")
    stations = "".join(f'[[segment.station]]\nmovement = "{name}"\nreps = 6\n' for name in names)
    segment = completed(PIECE + stations)
    easiest = [starter_library().find(name).options[0].name for name in names]  # type: ignore[union-attr]
    assert [station.options[0].name for station in segment.station] == easiest
    assert sum(len(station.options) for station in segment.station) == 9


def test_the_plans_own_options_are_all_kept_and_leave_the_library_what_room_there_is(
    completed: Callable[[str], Segment],
) -> None:
    own = ", ".join(f'"way {number}"' for number in range(1, 12))
    segment = completed(
        f'{PIECE}[[segment.station]]\nmovement = "push-up"\nreps = 6\noptions = [{own}]\n'
        '[[segment.station]]\nmovement = "box step-over"\nreps = 6'
    )
    assert [len(station.options) for station in segment.station] == [11, 0]


def test_no_caution_of_the_plan_takes_the_place_of_a_movements(
    completed: Callable[[str], Segment],
) -> None:
    # However alike they begin: which of two is the more careful, no program can tell.
    said = 'lift = "front squat"\ncaution = ["Safety bars set, tried with the empty bar."]\n'
    assert completed(PIECE + said).caution == (
        "Safety bars set, tried with the empty bar.",
        "Safety bars just below the lowest position.",
        "Elbows drop or the back rounds: the set is over.",
    )
