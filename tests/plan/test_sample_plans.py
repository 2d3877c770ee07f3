"""The sample plans are whole classes that read without a word of complaint."""

import json
import tomllib
from datetime import date
from pathlib import Path
from typing import Any

import jsonschema
import pytest

from classclock.club.plan_files import read_plan
from classclock.machine.bundled import bundled
from classclock.plan.formats.capped_for_time import CappedForTime
from classclock.plan.formats.rounds_in_time import RoundsInTime
from classclock.plan.model import Plan, is_piece
from classclock.plan.outline import outline
from classclock.plan.reading.schema import plan_schema

PLANS = bundled("plans")
FILES = sorted(PLANS.glob("*.toml"))
VALIDATOR = jsonschema.Draft202012Validator(plan_schema())


def read(file: Path) -> Plan:
    plan, findings = read_plan(file)
    assert findings == ()
    assert plan is not None
    return plan


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_a_sample_plan_is_a_class_of_45_to_60_minutes_with_its_cautions(file: Path) -> None:
    plan = read(file)
    whole = outline(plan)
    assert 45 * 60_000 <= whole.total_with_count_ins_ms <= 60 * 60_000
    hard = [one for one in plan.segment if one.benchmark is not None]
    assert len(hard) == 1
    assert hard[0].caution
    assert 5 * 60_000 <= whole.segments[plan.segment.index(hard[0])].length_ms <= 20 * 60_000


@pytest.mark.parametrize("file", FILES, ids=lambda file: file.stem)
def test_an_editor_is_told_the_same_about_a_sample_plan(file: Path) -> None:
    text = file.read_text(encoding="utf-8")
    assert text.startswith("#:schema ./plan.schema.json\n")
    # JSON has no dates: editors hand them over as text.
    values: Any = json.loads(json.dumps(tomllib.loads(text), default=date.isoformat))
    VALIDATOR.validate(values)
    values["segment"][0]["lod"] = 5
    assert not VALIDATOR.is_valid(values)


def test_the_schema_is_sound_and_the_one_beside_the_plans_is_up_to_date() -> None:
    jsonschema.Draft202012Validator.check_schema(plan_schema())
    written = json.loads((PLANS / "plan.schema.json").read_text(encoding="utf-8"))
    assert written == plan_schema()


def test_between_them_the_sample_plans_show_everything_that_a_plan_can_do() -> None:
    assert len(FILES) >= 7
    segments = [segment for file in FILES for segment in read(file).segment]
    stations = [station for segment in segments for station in segment.station]
    assert {segment.format for segment in segments if is_piece(segment)} == {
        "countdown",
        "interval",
        "rounds-in-time",
        "capped-for-time",
    }
    schemes = [one.scheme for one in segments if isinstance(one, CappedForTime) and one.scheme]
    assert schemes
    # Common practice, no source: three falling rungs are somebody's piece already.
    assert all(len(scheme) > 3 for scheme in schemes)
    assert any(isinstance(one, RoundsInTime) and one.teams for one in segments)
    assert any(one.lift and one.sets and one.sets[0].percent for one in segments)
    assert any(station.climb for station in stations)
    assert any(station.calories for station in stations)
    assert any(station.metres and station.counts for station in stations)
    assert any(option.reps for station in stations for option in station.options)
