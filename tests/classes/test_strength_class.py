"""A strength segment of five sets at the Depot: four athletes, one new, one flagged."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from msgspec.structs import replace

from classclock.book.asking.lift_records import read_lifts
from classclock.clock.source import WoundSource
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.records.class_document import results_document
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Lane
from classclock.tally.load_flags import load_flags, open_flags
from classclock.units.loads import parse_load
from classclock.wall.kept_off import said_to_the_room
from tests.lifts_of import lifts_of

PLAN = """
title = "Depot strength"
[[segment]]
name   = "Front squat"
format = "interval"
repeat = 5
steps  = [{ work = "1:00", label = "3 reps" }, { rest = "1:00" }]
lift   = "front squat"
sets   = [
  { reps = 3, percent = 65 }, { reps = 3, percent = 70 }, { reps = 3, percent = 75 },
  { reps = 3, percent = 80 }, { reps = 1, percent = 105 },
]
score  = "load"
"""
NAMES = ("Ilse", "Bram", "Noor", "Piet")


@pytest.fixture
def lifting(depot: Any, source: WoundSource) -> Callable[[], Session]:
    """Ilse has a single of 100 kg; Bram and Noor have sets of five; Piet has lifted nothing."""
    depot.held(
        "2026-10-06",
        depot.squats(
            depot.lifted("Ilse", "80 kg", "90 kg", "100 kg"),
            depot.lifted("Bram", "60 kg"),
            depot.lifted("Noor", "40 kg"),
        ),
    )
    plan, findings = parse_plan(PLAN, "strength.toml")
    assert plan is not None, findings

    def opened() -> Session:
        return open_session(
            PlanFile("strength", PLAN, plan),
            people_named(NAMES),
            folder=depot.folder,
            club=Club(),
            source=source,
            sound=False,
        )

    return opened


@pytest.fixture
def coach(lifting: Callable[[], Session], source: WoundSource, coach_of: Any) -> Any:
    return coach_of(lifting(), source)


def lanes_of(session: Session) -> dict[str, Lane]:
    return {lane.name: lane for lane in session.live.lineup()}


def kilos(lane: Lane) -> list[str | None]:
    return [str(load) if load is not None else None for load in lane.loads]


def test_everybody_has_the_loads_of_their_own_maximum(coach: Any) -> None:
    coach.session.live.plan_loads()
    lanes = lanes_of(coach.session)
    assert kilos(lanes["Ilse"]) == ["65 kg", "70 kg", "75 kg", "80 kg", "105 kg"]
    # 60 kg for five is a maximum of 67.5 kg by Brzycki's formula, 60 * 36 / 32.
    assert kilos(lanes["Bram"]) == ["42.5 kg", "45 kg", "50 kg", "52.5 kg", "70 kg"]
    # 45 * 0.65 = 29.25: the bar of 15 kg, since all five sets are to be on one bar.
    assert kilos(lanes["Noor"])[0] == "27.5 kg"
    assert kilos(lanes["Piet"]) == [None] * 5


def test_loads_are_worked_out_at_the_start_at_the_latest(coach: Any) -> None:
    assert coach.session.live.loads is None
    coach.start()
    assert kilos(lanes_of(coach.session)["Ilse"])[0] == "65 kg"


def test_a_load_above_the_maximum_stays_flagged_until_it_was_acknowledged(coach: Any) -> None:
    live = coach.session.live
    assert open_flags(live.record, live.loads, live.record.to_come) == (), (
        "nothing is known before it was read"
    )
    live.plan_loads()
    flags = open_flags(live.record, live.loads, live.record.to_come)
    assert next((flag.name, flag.text) for flag in flags) == (
        "Ilse",
        "105 kg is above the recorded maximum, 100 kg",
    )
    assert "Piet" not in {flag.name for flag in flags}
    for flag in flags:
        live.acknowledge(flag.person_id, flag.segment, flag.text)
    assert open_flags(live.record, live.loads, live.record.to_come) == ()
    assert load_flags(live.record, live.loads, live.record.to_come) == flags


def test_taps_and_numbers_record_what_was_made_and_missed(coach: Any, depot: Any) -> None:
    coach.start()
    coach.wind(30)
    coach.type("ib")  # the planned loads, made
    assert "no load is planned for Piet: type it, as in 60p" in coach.type("p")
    coach.type("40p")
    coach.wind(120)
    assert coach.type("i/b").startswith("Bram missed 45 kg, 2:")
    coach.type("45p")
    coach.wind(7 * 60)  # to the fifth set and past its end
    coach.wind(10)
    sheet = coach.session.live.record.sheet
    tallies = {tally.lane.name: tally for tally in sheet.tallies.values()}
    assert str(tallies["Ilse"].heaviest) == "70 kg"
    assert [(str(one.load), one.made) for one in tallies["Bram"].attempts] == [
        ("42.5 kg", True),
        ("45 kg", False),
    ]
    assert str(tallies["Piet"].heaviest) == "45 kg"


def test_far_above_everything_handled_is_doubtful_until_settled(coach: Any) -> None:
    coach.start()
    coach.wind(30)
    coach.type("650i")
    tally = coach.session.live.record.sheet.tallies["Ilse"]
    assert tally.doubts == ("650 kg is far above earlier",)


def test_the_journal_alone_gives_the_same_results(coach: Any, depot: Any) -> None:
    coach.start()
    coach.wind(30)
    coach.type("i/b")
    session = coach.session
    session.close()
    before = results_document(session.live.record, started="2026-11-24", journal="x")
    rejoined, journal = rejoin_session(
        session.journal.path, folder=depot.folder, club=Club(), sound=False
    )
    rejoined.close()
    again = results_document(replayed(journal), started="2026-11-24", journal="x")
    assert again == before
    assert again.pieces[0].lanes[0].attempts[0].load == "65 kg"


def test_what_was_made_is_the_record_of_the_next_class(coach: Any, depot: Any) -> None:
    coach.start()
    coach.wind(30)
    coach.type("40p")
    coach.wind(9 * 60)
    coach.wind(2)
    coach.type("*<enter>")
    assert coach.session.save()
    classes, unread = read_lifts(Path(depot.folder) / "results")
    assert unread == ()
    (record,) = lifts_of(classes, "Piet").values()
    assert str(record.heaviest.load) == "40 kg"
    # 40 kg for three, Brzycki: 40 * 36 / 34.
    assert float(record.best.load.amount) == pytest.approx(42.35, abs=0.01)


def test_a_load_said_on_the_board_is_the_planned_one_replays_and_is_in_the_results(
    coach: Any, source: WoundSource, depot: Any
) -> None:
    assert coach.type("70i") == "Ilse, set 1: 70 kg"
    assert coach.type("3:72.5i") == "Ilse, set 3: 72.5 kg"
    said = "Piet, set 1: 41 kg; 41 kg can't be made with the club's plates: 40 kg or 42.5 kg can"
    assert coach.type("41p") == said
    assert coach.type("115i") == "Ilse, set 1: 115 kg; look at it again"
    assert coach.type("825i").startswith("Ilse, set 1: 825 kg; look at it again; 825 kg can't be")
    assert coach.type("70i") == "Ilse, set 1: 70 kg"
    assert coach.type("40p") == "Piet, set 1: 40 kg"
    board = lanes_of(coach.session)
    assert kilos(board["Ilse"]) == ["70 kg", "70 kg", "72.5 kg", "80 kg", "105 kg"]
    assert kilos(board["Piet"]) == ["40 kg", None, None, None, None]
    coach.start()
    assert lanes_of(coach.session) == board
    coach.wind(30)
    coach.type("ip")
    coach.wind(120)
    coach.type("i")
    coach.wind(120)
    coach.type("i")
    path = coach.session.journal.path
    coach.session.close()
    session, journal = rejoin_session(
        path, folder=depot.folder, club=Club(), source=source, sound=False
    )
    again = replayed(journal)
    for record in (session.live.record, again):
        results = results_document(record, started="2026-11-24T18:30:00+01:00", journal=path.name)
        made = {lane.athlete: lane.attempts for lane in results.pieces[0].lanes}
        assert [one.load for one in made["Ilse"]] == ["70 kg", "70 kg", "72.5 kg"]
        assert [one.load for one in made["Piet"]] == ["40 kg"]


def test_a_load_that_was_said_is_taken_back_by_saying_what_is_planned(coach: Any) -> None:
    coach.type("70i")
    live = coach.session.live
    assert live.choose_load("Ilse", 0, 1, None).text == "Ilse, set 1: as planned"
    assert kilos(lanes_of(coach.session)["Ilse"])[0] == "65 kg"


def test_no_load_is_said_of_who_left_nor_of_no_set_nor_of_none(coach: Any) -> None:
    coach.type(".i")
    assert coach.type("80i") == "Ilse has left. -i: back again"
    assert coach.type("0b") == "0 is no load: type what is lifted, as in 80n"
    assert coach.type("6:80b").startswith("Front squat has sets 1 to 5")
    assert not coach.session.live.record.chosen_loads


def test_the_loads_of_who_keeps_them_off_the_wall_are_not_said(
    coach: Any, source: WoundSource
) -> None:
    live = coach.session.live
    ilse = live.record.people[0]
    live.change_person(replace(ilse, marks=("off the wall",)))
    outcome = live.choose_load("Ilse", 0, 1, parse_load("70 kg", "kg"))
    assert said_to_the_room(outcome, live.record) == "Ilse: noted"
    other = live.choose_load("Bram", 0, 1, parse_load("40 kg", "kg"))
    assert said_to_the_room(other, live.record) == "Bram, set 1: 40 kg"
