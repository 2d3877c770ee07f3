"""What the coach says of people by keys, on the board and on the last screen, and what comes of it.

What sent a coach back to a marker in a whole evening: each is a test of its own here.
"""

from collections.abc import Callable
from typing import Any

import pytest

from classclock.clock.source import WoundSource
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named
from classclock.tally.record import Phase

PLAN = """
title = "Depot Tuesday"

[[segment]]
name   = "Turntable"
format = "rounds-in-time"
time   = "4:00"
{teams}

  [[segment.station]]
  movement = "step over the rail"
  reps     = 6
  options  = ["lower rail", {{ name = "step-up", reps = 4 }}]

  [[segment.station]]
  movement = "sleeper carry"
  reps     = 12
  options  = ["half a sleeper"]

[[segment]]
name   = "Shunt"
format = "countdown"
time   = "2:00"
score  = "reps"
"""


@pytest.fixture
def evening(source: WoundSource, tmp_path: Any, coach_of: Any) -> Callable[..., Any]:
    def begin(*names: str, teams: str = "") -> Any:
        text = PLAN.format(teams=teams)
        plan, findings = parse_plan(text, "depot.toml")
        assert plan is not None, findings
        session = open_session(
            PlanFile("depot", text, plan),
            people_named(names or ("Ilse", "Bram", "Noor")),
            folder=tmp_path,
            club=Club(),
            source=source,
            sound=False,
        )
        return coach_of(session, source)

    return begin


def lanes(coach: Any) -> list[str]:
    return [lane.name for lane in coach.session.live.lineup()]


def phase(coach: Any) -> Phase:
    now: Phase = coach.session.live.phase
    return now


def test_who_has_left_is_said_at_once_and_is_back_at_once(evening: Callable[..., Any]) -> None:
    coach = evening()
    assert coach.type(".b") == "Bram has left: no lane from here on. -b: back again"
    assert lanes(coach) == ["Ilse", "Noor"]
    assert coach.type(".b") == "Bram has left already. -b: back again"
    assert coach.type("-b") == "Bram is back, key b"
    assert lanes(coach) == ["Ilse", "Bram", "Noor"]
    assert coach.type("-b") == "Bram is here: nobody has said that they left"


def test_who_was_stopped_in_one_piece_can_leave_before_the_next(
    evening: Callable[..., Any],
) -> None:
    """`.b` in one piece; on the next board `.b` was refused, and Bram a lane in every later one."""
    coach = evening()
    coach.start()
    coach.wind(60)
    coach.type(".b")
    coach.wind(200)
    coach.type("3i4n<enter>")
    assert phase(coach) == "board"
    assert lanes(coach) == ["Ilse", "Bram", "Noor"]
    coach.type(".b")
    assert lanes(coach) == ["Ilse", "Noor"]
    coach.start()
    assert [lane.name for lane in coach.session.live.record.sheet.lanes] == ["Ilse", "Noor"]


def test_of_a_pair_each_has_a_letter_on_the_board(evening: Callable[..., Any]) -> None:
    """`.p` for Pavel + Tom, who were there, gave `absent`."""
    coach = evening("Pavel", "Tom", "Ilse", "Bram", teams="teams = 2")
    assert lanes(coach) == ["Pavel + Tom", "Ilse + Bram"]
    coach.type(".p")
    assert lanes(coach) == ["Tom", "Ilse + Bram"]
    coach.type("-p.t")
    assert lanes(coach) == ["Pavel", "Ilse + Bram"]
    coach.type("-t")
    assert lanes(coach) == ["Pavel + Tom", "Ilse + Bram"]


def test_an_option_said_on_the_board_holds_from_the_start(evening: Callable[..., Any]) -> None:
    coach = evening()
    assert coach.type(":n2") == "Noor: step-up"
    assert coach.type(":n3") == "Noor: step-up, half a sleeper"
    assert coach.type(":n1") == "Noor: lower rail, half a sleeper"
    assert coach.type(":i3") == "Ilse: half a sleeper"
    assert coach.type(":i0") == "Ilse: as written"
    coach.start()
    options = {lane.name: lane.options for lane in coach.session.live.record.sheet.lanes}
    assert options == {"Ilse": (), "Bram": (), "Noor": (1, 1)}


def test_an_option_that_isnt_there_is_refused_and_the_next_key_starts(
    evening: Callable[..., Any],
) -> None:
    """`:n2` was refused there and left its digit pending; enter then didn't start."""
    coach = evening()
    words = "the options here are 1 lower rail, 2 step-up, 3 half a sleeper, and 0 as written"
    assert coach.type(":n4") == words
    assert coach.session.desk.pending == ""
    coach.type("<enter>")
    assert phase(coach) == "count-in"


def test_a_pair_modifies_as_one(evening: Callable[..., Any]) -> None:
    coach = evening("Pavel", "Tom", "Ilse", "Bram", teams="teams = 2")
    assert coach.type(":t1") == "Pavel + Tom: lower rail"
    coach.type(".p")
    assert [lane.options for lane in coach.session.live.lineup()] == [(1, 0), ()]


def test_an_option_of_who_has_left_is_refused(evening: Callable[..., Any]) -> None:
    coach = evening()
    assert coach.type(".n:n1") == "Noor has left. -n: back again"


def test_a_load_where_none_is_counted_is_refused_and_the_next_key_starts(
    evening: Callable[..., Any],
) -> None:
    coach = evening()
    assert coach.type("80n") == "no load is counted in Turntable: a number means nothing here"
    coach.type("<enter>")
    assert phase(coach) == "count-in"


def test_on_the_last_screen_letters_mean_people(evening: Callable[..., Any]) -> None:
    coach = evening("Pavel", "Tom", "Ilse", "Bram", teams="teams = 2")
    for _ in range(2):
        coach.start()
        coach.wind(300)
        coach.type("*<enter>")
    assert phase(coach) == "closed"
    assert coach.type(".t") == "Tom has left: no lane from here on. -t: back again"
    assert coach.type("-t") == "Tom is back, key t"
    assert coach.type("t").startswith("the class is over")


def test_while_a_piece_runs_a_letter_is_a_lane_as_ever(evening: Callable[..., Any]) -> None:
    coach = evening("Pavel", "Tom", "Ilse", "Bram", teams="teams = 2")
    coach.start()
    coach.wind(30)
    assert coach.type("t") == "nobody has the key t"
    assert coach.type("p") == "Pavel + Tom, round 1, 0:30"
    assert coach.type(".p").startswith("Pavel + Tom stops here")
    assert coach.session.live.record.left == {}


def test_a_newcomer_is_given_a_letter_that_nobody_had(evening: Callable[..., Any]) -> None:
    coach = evening("Ilse", "Bram", "Noor")
    coach.type(".b")
    newcomer = people_named(("Bo",))[0]
    coach.session.live.add_person(newcomer)
    assert {one.name: one.key for one in coach.session.live.record.people}["Bo"] == "o"
    assert coach.type("-b") == "Bram is back, key b"
