"""What a new plan is made from."""

import json
import tomllib
from pathlib import Path

import pytest

from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.drafts.new_plan_list import begin, starts_in
from classclock.live.session_opening import open_session
from classclock.machine.bundled import bundled
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named

SUNDAY = """
# ours since the spring
title = "Sandbox Sunday"  # ask Noor

[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
"""


def test_new_plans_begin_from_what_the_club_has(tmp_path: Path) -> None:
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "sunday.toml").write_text(SUNDAY)
    named = {start.title: start.source for start in starts_in(tmp_path)}
    assert list(named)[:4] == ["countdown", "interval", "rounds-in-time", "capped-for-time"]
    copied = begin(named["sunday"])
    assert copied.path is None
    assert copied.text == SUNDAY.replace("Sandbox Sunday", "New plan")


@pytest.mark.parametrize("named", ["nothing-here", "notes.txt", "broken.json"])
def test_what_is_no_plan_is_answered_in_a_sentence(tmp_path: Path, named: str) -> None:
    (tmp_path / "notes.txt").write_text("bring chalk")
    (tmp_path / "broken.json").write_text('{"journal": 3}')
    path = tmp_path / named
    with pytest.raises(ValueError, match=r"no such file|it is no plan|no results file"):
        begin(path)


def test_a_plan_begins_from_what_a_class_was_run_by(tmp_path: Path) -> None:
    plan, _ = read_plan(bundled("plans") / "sandbox.toml")
    assert plan is not None
    text = (bundled("plans") / "sandbox.toml").read_text("utf-8")
    session = open_session(
        PlanFile("sandbox", text, plan),
        people_named(["Ilse"]),
        folder=tmp_path,
        club=Club(),
        source=WoundSource(),
        sound=False,
    )
    session.close()
    (tmp_path / "results").mkdir(exist_ok=True)
    result = tmp_path / "results" / "2026-03-06-sandbox.json"
    result.write_text(json.dumps({"journal": session.journal.path.name}))
    begun = tomllib.loads(begin(result).text)
    assert begun["title"] == "New plan"
    assert begun["segment"] == tomllib.loads(text)["segment"]
