"""What the list of who is here says of everybody, as the room may read it."""

from pathlib import Path

import pytest

from classclock.clock.source import MS, WoundSource
from classclock.live.live_class import LiveClass
from classclock.live.session import Session
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.tally import commands as cmd
from classclock.tally.decide_groups import SharedWay
from classclock.tally.lanes import Choice, Person
from classclock.units.loads import parse_load
from classclock.wall.between.here_content import here_content

PLAN = """
title = "Depot Thursday"
[[segment]]
name = "Warm-up"
format = "countdown"
time = "8:00"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, load = "60 kg" }, { reps = 3, percent = 70 }]
score = "load"
[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"
teams = 2
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box"]
  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9
  load = { heavier = "22.5 kg", lighter = "15 kg" }
"""
PEOPLE = (
    Person("i1", "Ilse", "i", marks=("under 18",)),
    Person("b1", "Bram", "b", marks=("off the wall",)),
    Person("n1", "Noor", "n"),
)


@pytest.fixture
def session(tmp_path: Path) -> Session:
    plan, findings = parse_plan(PLAN, "t.toml")
    assert plan is not None, findings
    plan_file = PlanFile("t", PLAN, plan)
    source = WoundSource(0)
    return open_session(plan_file, PEOPLE, folder=tmp_path, club=Club(), source=source, sound=False)


def said(live: LiveClass) -> list[str]:
    return [person.words for person in here_content(live).people]


def pass_over(session: Session, segments: int) -> None:
    for _ in range(segments):
        session.live.do(cmd.GoTo(1))


def test_on_a_warm_up_s_board_it_is_about_the_piece_after_it(session: Session) -> None:
    content = here_content(session.live)
    assert content.piece is not None
    assert content.piece.segment.name == "Front squat"
    assert content.count == "3 here"
    assert said(session.live) == ["• 60 kg", "• -", "60 kg"]


def test_a_load_that_was_talked_over_is_said_but_not_of_whoever_is_off_the_wall(
    session: Session,
) -> None:
    for ident in ("b1", "n1"):
        session.live.choose_load(ident, 1, 1, parse_load("62.5", "kg"))
    assert said(session.live) == ["• 60 kg", "• -", "62.5 kg"]


def test_options_loads_and_who_is_in_a_team_with_whom(session: Session) -> None:
    pass_over(session, 2)
    session.live.choose("i1", 2, Choice((1,), "lighter"))
    session.live.choose("b1", 2, Choice((), "heavier"))
    assert said(session.live) == ["• lower box, lighter, with Bram", "• -, with Ilse", ""]
    session.live.leave("b1")
    assert said(session.live) == ["• lower box, lighter", "• has left", ""]
    assert here_content(session.live).count == "2 here, 1 has left"
    session.live.leave("n1")
    assert here_content(session.live).count == "1 here, 2 have left"


def test_who_shares_a_bar_with_whom_and_two_who_change_places(session: Session) -> None:
    pass_over(session, 1)
    session.live.share_so(1, SharedWay(partners=(("i1", "n1"),)))
    assert said(session.live) == ["• 60 kg, with Noor", "• -", "60 kg, with Ilse"]
    session.live.do(cmd.SwapPlaces("b1", "n1"))
    assert said(session.live) == ["• 60 kg, with Bram", "• -, with Ilse", "60 kg"]


def test_once_a_piece_has_begun_it_is_about_the_next_and_then_about_none(
    session: Session,
) -> None:
    pass_over(session, 1)
    assert session.live.do(cmd.Start()).events
    content = here_content(session.live)
    assert content.piece is not None
    assert content.piece.segment.name == "Turntable"
    assert content.clock == ""
    source = session.source
    assert isinstance(source, WoundSource)
    source.jump(75_000 * MS)
    session.live.do(cmd.HoldClock())
    assert here_content(session.live).clock == "held at 1:05"
    session.live.do(cmd.EndSegment())
    session.live.do(cmd.Next())
    session.live.do(cmd.Next())
    pass_over(session, 1)
    assert session.live.do(cmd.Start()).events
    assert here_content(session.live).piece is None
    assert said(session.live) == ["•", "•", ""]
