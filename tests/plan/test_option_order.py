"""In which order a station's options stand from nearest to farthest, whatever their numbers."""

from hypothesis import given, settings
from hypothesis import strategies as st

from classclock.plan.editing.writing import plan_text
from classclock.plan.model import Plan
from classclock.plan.movements.completing import complete
from classclock.plan.movements.starter_library import starter_library
from classclock.plan.option_menu import nearest_first, option_menu
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.station import Option, Station

PLAN = """
title = "Depot"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = OPTIONS
"""


def read(options: str) -> Plan:
    plan, findings = parse_plan(PLAN.replace("OPTIONS", options), "t.toml")
    assert plan is not None, findings
    return plan


def named(plan: Plan) -> list[str]:
    (station,) = plan.segment[0].station
    return [station.options[number - 1].name for number in nearest_first(station)]


def test_they_stand_as_they_are_written() -> None:
    assert named(read('["lower box", "step-up"]')) == ["lower box", "step-up"]


def test_unless_they_say_their_order_and_keep_their_numbers_then() -> None:
    plan = read('["step-up", { name = "lower box", order = 1 }, "step over a line"]')
    assert named(plan) == ["lower box", "step-up", "step over a line"]
    assert option_menu(plan.segment[0]) == ((0, 1), (0, 2), (0, 3))
    again, _ = parse_plan(plan_text(plan), "t.toml")
    assert again == plan


def test_what_the_library_adds_comes_after_and_there_the_easiest_stands_first() -> None:
    # Its options of a box step-over: step over a line, step-up, lower box.
    completed = complete(read('["lower box"]'), starter_library())
    assert named(completed) == ["lower box", "step-up", "step over a line"]
    assert named(complete(read("[]"), starter_library())) == named(completed)


OPTIONS = st.lists(
    st.builds(
        Option,
        name=st.text("ab", min_size=1, max_size=3),
        order=st.none() | st.integers(1, 5),
        from_library=st.booleans(),
    ),
    max_size=6,
).map(tuple)


@settings(max_examples=50)
@given(OPTIONS)
def test_each_stands_in_it_once(options: tuple[Option, ...]) -> None:
    order = nearest_first(Station(movement="a", options=options))
    assert sorted(order) == list(range(1, len(options) + 1))
    said = [one for number in order if (one := options[number - 1].order) is not None]
    assert said == sorted(said)
