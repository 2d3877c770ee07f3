"""What the club knows of movements reaches every class; a faulty file stops none."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.people_reading import in_files
from classclock.clock.source import WoundSource
from classclock.club.movements import filled_in
from classclock.commands.command_line import main
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.pages.who.who_list import WhoList, likely_end
from classclock.screens.people.person_line import PersonLine
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Choice

PLAN = """
title = "Depot Thursday"
[[segment]]
name   = "Points Lever"
format = "rounds-in-time"
time   = "9:00"
[[segment.station]]
movement = "pit crawl"
reps     = 9
[[segment.station]]
movement = "Box Step-Overs"
reps     = 6
"""
OWN = """
[[movement]]
name     = "pit crawl"
pattern  = "trunk"
standard = "hands and feet, nothing else"
points   = ["hips low", "look ahead"]
options  = ["crawl to the rail"]
caution  = ["Wrists hurt: on the forearms."]
"""


@pytest.fixture
def plan_file() -> PlanFile:
    plan, findings = parse_plan(PLAN, "t.toml")
    assert plan is not None, findings
    return PlanFile("points-lever", PLAN, plan)


def test_the_clubs_own_movements_and_those_that_come_along_fill_in_a_plan(
    plan_file: PlanFile, tmp_path: Path
) -> None:
    (tmp_path / "movements.toml").write_text(OWN)
    filled, trouble = filled_in(plan_file, tmp_path)
    assert not trouble
    own, known = filled.plan.segment[0].station
    assert own.points == ("hips low", "look ahead")
    assert own.caution == ("Wrists hurt: on the forearms.",)
    assert known.standard == "both feet on the box"
    assert parse_plan(filled.text, "t.toml") == (filled.plan, ())


def test_a_faulty_file_is_left_out_with_one_notice_and_the_class_can_run(
    plan_file: PlanFile, tmp_path: Path, source: WoundSource, coach_of: Callable[..., Any]
) -> None:
    (tmp_path / "movements.toml").write_text(OWN.replace('"trunk"', '"trnk"') + "lod = 3\n")
    filled, trouble = filled_in(plan_file, tmp_path)
    assert trouble.startswith("movements.toml is left out (line 4: ")
    assert "\n" not in trouble
    own, known = filled.plan.segment[0].station
    assert (own.standard, own.options) == (None, ())
    assert known.standard == "both feet on the box"
    coach = coach_of(
        open_session(
            filled,
            people_named(("Ilse",)),
            folder=tmp_path,
            club=Club(),
            source=source,
            sound=False,
        ),
        source,
    )
    coach.start()
    coach.wind(60)
    coach.type("i")
    assert coach.session.live.phase == "running"
    coach.session.close()


def test_a_plan_that_names_no_movement_reads_no_library(tmp_path: Path) -> None:
    text = 'title = "t"\n[[segment]]\nname = "w"\nformat = "countdown"\ntime = "8:00"\n'
    plan, _ = parse_plan(text, "t.toml")
    assert plan is not None
    (tmp_path / "movements.toml").write_text("faulty")
    given = PlanFile("t", text, plan)
    assert filled_in(given, tmp_path) == (given, "")


def test_what_was_used_last_time_is_proposed_though_the_library_gave_that_option(
    plan_file: PlanFile, tmp_path: Path, source: WoundSource, coach_of: Callable[..., Any]
) -> None:
    (tmp_path / "movements.toml").write_text(OWN)
    filled, _ = filled_in(plan_file, tmp_path)
    people = people_named(("Ilse", "Bram"))
    session = open_session(filled, people, folder=tmp_path, club=Club(), source=source, sound=False)
    names = [one.name for one in filled.plan.segment[0].station[1].options]
    step_up = names.index("step-up") + 1
    session.live.choose(people[0].id, 0, Choice((1, step_up)))
    coach = coach_of(session, source)
    coach.start()
    coach.wind(60)
    coach.type("i")
    coach.wind(600)
    assert session.save()
    session.close()
    # The week after the club lists another option first, and spells this one otherwise.
    (tmp_path / "movements.toml").write_text(OWN.replace('["crawl', '["kneel", "Crawl'))
    again, _ = filled_in(plan_file, tmp_path)
    who = WhoList(again.plan, "kg", in_files(tmp_path), likely_end(source.wall(), 3_600_000))
    ilse = next(known for known in who.known if known.name == "Ilse")
    who.toggle(PersonLine("known", ilse.id, ilse.name, ilse.key))
    assert who.choices.made[0, ilse.id].options == (2, step_up)
    assert "as before" in who.choices.words(who.choices.pieces[0], ilse.id)


def test_a_rehearsal_may_use_an_option_that_only_the_library_has(
    tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    (tmp_path / "movements.toml").write_text(OWN)
    (tmp_path / "plan.toml").write_text(PLAN)
    (tmp_path / "taps.csv").write_text("seconds,keys\n5,:i1\n60,i\n")
    words = ["rehearse", str(tmp_path / "plan.toml"), "--athletes", "Ilse", "--club", str(tmp_path)]
    assert main([*words, "--taps", str(tmp_path / "taps.csv")]) == 0
    assert "crawl to the rail" in capsys.readouterr().out
