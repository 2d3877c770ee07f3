"""Lengths of time: a file's whole number is seconds, code says that it means milliseconds."""

from classclock.plan.formats.interval import Step
from classclock.plan.model import Plan
from classclock.units.times import Milliseconds

MINUTE = Milliseconds(60_000)


def test_milliseconds_from_code_are_taken_as_they_are() -> None:
    assert Step(work=MINUTE).work == 60_000
    assert type(Step(work=MINUTE).work) is Milliseconds


def test_a_whole_number_of_a_file_is_seconds() -> None:
    assert Step.model_validate({"work": 60}).work == MINUTE


def test_a_bare_number_from_code_is_refused_by_the_type_checker() -> None:
    # mypy fails on an `ignore` that ignores nothing: the day it lets this pass, it says so.
    step = Step(work=60)  # type: ignore[arg-type]
    assert step.work == MINUTE


def test_a_plan_taken_apart_and_put_together_keeps_its_lengths() -> None:
    steps = [{"work": "1:00"}, {"rest": 30}]
    segment = {"name": "Intervals", "format": "interval", "repeat": 2, "steps": steps}
    plan = Plan.model_validate({"title": "Depot", "segment": [segment]})
    assert Plan.model_validate(plan.model_dump()) == plan
