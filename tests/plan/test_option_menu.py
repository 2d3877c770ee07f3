"""Options by number: what the plan lists first, what the movements' library adds after it."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Plan, Segment
from classclock.plan.movements.completing import complete_file
from classclock.plan.movements.library import EasierMovement, Library, Movement
from classclock.plan.option_menu import number_words, option_menu, option_words
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan

PLAN = """
title = "Depot Tuesday"

[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"

  [[segment.station]]
  movement = "rail hop"
  reps = 6
  options = ["lower rail"]

  [[segment.station]]
  movement = "sleeper carry"
  reps = 12
  options = ["half a sleeper", "hand cart"]
"""


def read(text: str) -> Plan:
    plan, findings = parse_plan(text, "depot.toml")
    assert plan is not None, findings
    return plan


def library(*options: str) -> Library:
    easier = tuple(EasierMovement(name=name) for name in options)
    return Library((Movement(name="rail hop", pattern="jump", options=easier),))


def named(segment: Segment) -> list[str]:
    return [
        segment.station[place].options[number - 1].name for place, number in option_menu(segment)
    ]


def test_what_the_library_adds_comes_after_what_the_plan_lists_and_changes_no_number() -> None:
    plan = read(PLAN)
    assert named(plan.segment[0]) == ["lower rail", "half a sleeper", "hand cart"]
    filled = complete_file(PlanFile("depot", PLAN, plan), library("rail step", "heel raise"))
    assert named(filled.plan.segment[0]) == [
        "lower rail",
        "half a sleeper",
        "hand cart",
        "rail step",
        "heel raise",
    ]
    assert [one.name for one in filled.plan.segment[0].station[0].options] == [
        "lower rail",
        "rail step",
        "heel raise",
    ]


def test_a_class_that_is_rejoined_numbers_them_alike() -> None:
    """A journal keeps the plan's text as it was filled in."""
    filled = complete_file(PlanFile("depot", PLAN, read(PLAN)), library("rail step"))
    assert named(read(filled.text).segment[0]) == named(filled.plan.segment[0])


def test_more_than_nine_are_called_with_two_digits() -> None:
    many = ", ".join(f'"rail {number}"' for number in range(9))
    plan = read(PLAN.replace('["lower rail"]', f"[{many}]"))
    words = option_words(plan.segment[0])
    assert words.startswith("the options here are 01 rail 0, 02 rail 1,")
    assert words.endswith("11 hand cart, and 00 as written")
    assert option_words(read(PLAN).segment[0]) == (
        "the options here are 1 lower rail, 2 half a sleeper, 3 hand cart, and 0 as written"
    )


def test_without_options_that_is_said() -> None:
    text = 'title = "Depot"\n[[segment]]\nname = "Row"\nformat = "countdown"\ntime = "1:00"\n'
    assert option_words(read(text).segment[0]) == "the plan has no options for this piece"


@given(st.integers(0, 99), st.integers(0, 99))
def test_a_number_is_read_as_it_is_shown(number: int, options: int) -> None:
    words = number_words(min(number, options), options)
    assert int(words) == min(number, options)
    assert len(words) == (2 if options > 9 else 1)
