"""Pairs at a bar, from the offer to the book: each keeps key, load, tally and record."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import read_journal
from classclock.clock.source import WoundSource
from classclock.live import session_opening
from classclock.live.replaying import replayed
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.teams import by_lot
from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Place, Sharing
from classclock.tally.record import ClassRecord
from classclock.tally.turns import turns
from classclock.units.loads import parse_load

PLAN = """
title = "Depot strength"
[[segment]]
name   = "Front squat"
format = "interval"
repeat = 2
steps  = [{ work = "2:00", label = "3 reps" }]
lift   = "front squat"
sets   = [{ reps = 3, percent = 65 }, { reps = 3, percent = 70 }]
score  = "load"

[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "5:00"
teams  = 2

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 15
"""
MAXIMA = {
    "Ilse": "95 kg",
    "Ian": "125 kg",
    "Noor": "62.5 kg",
    "Bram": "140 kg",
    "Femke": "90 kg",
    "Piet": "120 kg",
    "Tuva": "100 kg",
}
NAMES = (*MAXIMA, "Uri")
CLUB = Club.model_validate(
    {
        "bar": [{"name": "20 kg bar", "weight": "20 kg", "count": 6}],
        "plates": {"pairs": {"20": 9, "15": 6, "10": 6, "5": 6, "2.5": 6, "1.25": 6}},
        "equipment": {"bars": 6},
    }
)
SQUAT, HEADWAY = 0, 1


@pytest.fixture
def opened(depot: Any, source: WoundSource) -> Callable[..., Session]:
    """Eight people, six bars; of Uri nothing is known."""
    lifted = (depot.lifted(name, load) for name, load in MAXIMA.items())
    depot.held("2026-10-06", depot.squats(*lifted))

    def make(names: tuple[str, ...] = NAMES) -> Session:
        plan, findings = parse_plan(PLAN, "strength.toml")
        assert plan is not None, findings
        session = open_session(
            PlanFile("strength", PLAN, plan),
            people_named(names),
            folder=depot.folder,
            club=CLUB,
            source=source,
            sound=False,
        )
        session.live.plan_loads()
        session.learn_equipment()
        return session

    return make


@pytest.fixture
def coach(opened: Callable[..., Session], source: WoundSource, coach_of: Any) -> Any:
    return coach_of(opened(), source)


def choose(coach: Any, words: str) -> None:
    session = coach.session
    way = next(way for way in session.ways_to_share().ways if words in way.words)
    assert not session.live.share_so(session.live.record.chosen.segment, way.shared).refused


def called(coach: Any) -> list[set[str]]:
    names = {person.id: person.name for person in coach.session.live.record.people}
    return [{names[one] for one in group} for group in coach.session.live.partners()]


def saved(coach: Any) -> dict[str, Any]:
    assert coach.session.save()
    path = next(path for path in coach.session.results.saved if path.suffix == ".json")
    document: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return document


def test_eight_people_at_six_bars_each_lift_their_own_load_with_their_own_key(coach: Any) -> None:
    live = coach.session.live
    before = {lane.id: lane for lane in live.lineup()}
    choose(coach, "in pairs, turn by turn")
    assert {lane.id: lane for lane in live.lineup()} == before, "key, load, lane: all as it was"
    coach.start()
    by_name = {lane.name: lane for lane in live.lineup()}
    assert [str(by_name[name].loads[0]) for name in ("Ilse", "Ian")] == ["67.5 kg", "90 kg"]
    ilse, ian = by_name["Ilse"].key, by_name["Ian"].key
    coach.wind(2)
    assert coach.type(f"67.5{ilse}") == "Ilse made 67.5 kg, 0:02; Tuva is next"
    coach.wind(2)
    assert coach.type(ian) == "Ian, 90 kg, 0:04; Piet is next"
    coach.wind(300)
    coach.type("<enter>")
    lanes = {lane["athlete"]: lane for lane in saved(coach)["pieces"][0]["lanes"]}
    assert set(lanes) == set(NAMES)
    assert (lanes["Ilse"]["load_kg"], lanes["Ian"]["load_kg"]) == (67.5, 90)
    ids = {person.name: person.id for person in live.record.people}
    assert lanes["Ilse"]["partners"] == [ids["Tuva"]]
    assert lanes["Ilse"]["members"] == [ids["Ilse"]], "a record of her own"


def test_partners_are_proposed_by_their_loads(coach: Any) -> None:
    choose(coach, "fewest plate changes")
    assert {"Ilse", "Tuva"} in called(coach), "67.5 kg and 70"
    assert {"Ian", "Piet"} in called(coach), "90 kg and 85"


def test_nothing_has_to_be_short_for_partners(opened: Any, source: Any, coach_of: Any) -> None:
    coach = coach_of(opened(NAMES[:4]), source)
    assert coach.session.offer() is None
    offer = coach.session.ways_to_share()
    assert (offer.short, offer.planned) == ("", "nobody shares a bar")
    choose(coach, "as they came")
    assert called(coach) == [{"Ilse", "Ian"}, {"Noor", "Bram"}]
    assert coach.session.live.record.shared == {}


def test_an_odd_one_makes_a_three(opened: Any, source: Any, coach_of: Any) -> None:
    coach = coach_of(opened(NAMES[:7]), source)
    choose(coach, "fewest plate changes")
    assert sorted(map(len, called(coach))) == [2, 2, 3]


def test_the_turn_passes_at_a_lift_and_at_a_miss(coach: Any) -> None:
    choose(coach, "as they came")
    live = coach.session.live
    coach.start()
    ilse, ian = (live.lineup()[at].key for at in (0, 1))

    def turn() -> Any:
        whose = turns(live.record.sheet)[0].lane
        return next(lane.name for lane in live.lineup() if lane.id == whose)

    assert turn() == "Ilse"
    coach.wind(2)
    coach.type(f"/{ilse}")
    assert turn() == "Ian"
    coach.wind(2)
    coach.type(ian)
    assert turn() == "Ilse"
    coach.wind(2)
    coach.type(f"-{ian}")
    assert turn() == "Ian"


def test_swapped_on_the_board_they_lift_so(coach: Any) -> None:
    choose(coach, "as they came")
    live = coach.session.live
    ids = {person.name: person.id for person in live.record.people}
    swapped = live.swap_places(ids["Ian"], ids["Tuva"])
    assert (swapped.refused, swapped.text) == (False, "Ian and Tuva have changed places")
    assert called(coach)[0] == {"Ilse", "Tuva"}
    live.swap_places(ids["Tuva"], ids["Ian"])
    assert called(coach)[0] == {"Ilse", "Ian"}


def test_the_coach_swaps_two_by_their_letters(coach: Any) -> None:
    choose(coach, "as they came")
    keys = {person.name: person.key for person in coach.session.live.record.people}
    said = coach.type(f">{keys['Ian']}{keys['Tuva']}")
    assert said == "Ian and Tuva have changed places"
    assert called(coach)[0] == {"Ilse", "Tuva"}
    coach.wind(2)
    coach.type(f">{keys['Tuva']}{keys['Ian']}")
    assert called(coach)[0] == {"Ilse", "Ian"}


def test_who_has_left_leaves_their_partner_alone_and_is_proposed_no_more(coach: Any) -> None:
    choose(coach, "as they came")
    live = coach.session.live
    ids = {person.name: person.id for person in live.record.people}
    assert not live.leave(ids["Ian"]).refused
    assert called(coach) == [{"Noor", "Bram"}, {"Femke", "Piet"}, {"Tuva", "Uri"}]
    assert "Ian" not in {lane.name for lane in live.lineup()}
    assert live.swap_places(ids["Ian"], ids["Tuva"]).refused
    choose(coach, "fewest plate changes")
    assert sorted(map(len, called(coach))) == [2, 2, 3]
    live.back(ids["Ian"])
    assert not any("Ian" in group for group in called(coach)), "nobody shares with him yet"


def test_a_load_that_is_chosen_together_counts_for_the_partners(coach: Any) -> None:
    live = coach.session.live
    ids = {person.name: person.id for person in live.record.people}
    assert not live.choose_load(ids["Uri"], SQUAT, None, parse_load("90 kg", "kg")).refused
    choose(coach, "fewest plate changes")
    assert {"Uri", "Ian"} in called(coach), "90 kg both"


def test_a_class_that_was_cut_off_has_the_same_partners_and_turns_and_replays_so(
    coach: Any,
    depot: Any,
    source: WoundSource,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(session_opening, "raw_now", source.now)
    choose(coach, "fewest plate changes")
    live = coach.session.live
    board = live.partners()
    copied = Path(shutil.copy(coach.session.journal.path, tmp_path / "board.jsonl"))
    session, _ = rejoin_session(copied, folder=tmp_path, club=CLUB, source=source, sound=False)
    assert session.live.partners() == board
    session.close()
    coach.start()
    coach.wind(2)
    coach.type(live.lineup()[0].key)
    again = again_from_its_journal(coach)
    assert again.sheet is not None
    assert again.sheet == live.record.sheet
    assert turns(again.sheet)[0].before == live.lineup()[0].id


def test_two_in_one_place_of_an_old_journal_stay_one_lane_as_they_were_saved(coach: Any) -> None:
    live = coach.session.live
    ids = [person.id for person in live.record.people]
    pairs = tuple(Place(tuple(ids[at : at + 2])) for at in range(0, len(ids), 2))
    live.record_event(ev.EquipmentShared(1, SQUAT, Sharing("in pairs, turn by turn", pairs)))
    assert live.lineup()[0].name == "Ilse + Ian"
    assert live.partners() == ()
    coach.start()
    again = again_from_its_journal(coach)
    assert again.sheet is not None
    assert again.sheet.lanes == live.record.sheet.lanes


def test_teams_as_they_came_by_lot_and_even(opened: Any, source: Any, coach_of: Any) -> None:
    coach = coach_of(opened(NAMES[:5]), source)
    live = coach.session.live
    live.record_event(ev.SegmentChosen(live.clock.now(), HEADWAY))
    assert [lane.name for lane in live.lineup()][-1] == "Femke", "alone, as the plan has it"
    choose(coach, "as they came")
    assert [lane.name for lane in live.lineup()] == ["Ilse + Ian", "Noor + Bram + Femke"]
    choose(coach, "drawn by lot")
    drawn = [lane.name for lane in live.lineup()]
    made = [one for one in events_of(coach) if isinstance(one, ev.TeamsSet)][-1]
    assert made.seed is not None
    ids = [person.id for person in live.record.people]
    assert by_lot(ids, (2, 3), made.seed) == made.groups, "the same seed draws the same"
    record = again_from_its_journal(coach)
    assert [lane.name for lane in all_heats(record, None)] == drawn
    assert not any("even" in way.words for way in coach.session.ways_to_share().ways), (
        "nobody's results tell it"
    )


def events_of(coach: Any) -> tuple[ev.Event, ...]:
    return read_journal(coach.session.journal.path).events


def again_from_its_journal(coach: Any) -> ClassRecord:
    return replayed(read_journal(coach.session.journal.path))
