"""A class with less equipment than people: what is chosen is what starts, and is counted."""

import json
import shutil
from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.known_people import known_people
from classclock.book.asking.remembered import remembered_people
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import open_book
from classclock.clock.source import WoundSource
from classclock.club.movements import filled_in
from classclock.live import session_opening
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named

PLAN = """
title = "Depot Thursday"

[[segment]]
name   = "Headway"
format = "rounds-in-time"
time   = "9:00"
count  = "station"

  [[segment.station]]
  movement = "push press"
  reps     = 9

  [[segment.station]]
  movement = "box step-over"
  reps     = 6

  [[segment.station]]
  movement = "bodyweight squat"
  reps     = 15
"""
NAMES = ("Ilse", "Bram", "Noor", "Piet", "Tuva", "Uri")
CLUB = Club.model_validate({"equipment": {"bars": 3, "boxes": 3}})


@pytest.fixture
def open_short(
    source: WoundSource, tmp_path: Path, coach_of: Callable[..., Any]
) -> Callable[..., Any]:
    def make(plan: str = PLAN, names: tuple[str, ...] = NAMES, club: Club = CLUB) -> Any:
        read, findings = parse_plan(plan, "headway.toml")
        assert read is not None, findings
        plan_file, trouble = filled_in(PlanFile("headway", plan, read), tmp_path)
        assert not trouble
        session = open_session(
            plan_file, people_named(names), folder=tmp_path, club=club, source=source, sound=False
        )
        session.learn_equipment()
        return coach_of(session, source)

    return make


def choose(coach: Any, words: str) -> None:
    offer = coach.session.offer()
    assert offer is not None
    way = next(way for way in offer.ways if words in way.words)
    assert not coach.session.live.share_so(offer.segment, way.shared).refused


def saved(coach: Any) -> dict[str, Any]:
    assert coach.session.save()
    path = next(path for path in coach.session.results.saved if path.suffix == ".json")
    document: dict[str, Any] = json.loads(path.read_text("utf-8"))
    return document


def test_what_is_short_is_said_for_those_who_are_here(open_short: Callable[..., Any]) -> None:
    offer = open_short().session.offer()
    assert (offer.name, offer.people) == ("Headway", 6)
    assert offer.short == (
        "6 bars are needed at once, 3 are here; 6 boxes are needed at once, 3 are here"
    )
    assert open_short(names=NAMES[:3]).session.offer() is None, "enough for three"
    assert open_short(club=Club()).session.offer() is None, "nothing was counted"


def test_an_option_that_needs_none_leaves_the_equipment_to_the_others(
    open_short: Callable[..., Any],
) -> None:
    coach = open_short()
    live, segment = coach.session.live, coach.session.live.record.segment
    without = [one.name for one in segment.station[1].options].index("step over a line") + 1
    for person in live.record.people[:3]:
        choice = live.record.choice(person.id, 0)
        live.choose(person.id, 0, type(choice)(options=(0, without)))
    assert coach.session.offer().short == "6 bars are needed at once, 3 are here"


def test_a_staggered_start_goes_through_a_whole_class_and_each_round_ends_where_it_began(
    open_short: Callable[..., Any],
) -> None:
    coach = open_short()
    choose(coach, "start at different stations")
    live = coach.session.live
    starts = {lane.name: lane.start_station for lane in live.lineup()}
    assert set(starts.values()) == {0, 1, 2}
    coach.start()
    sizes = (9, 6, 15)
    for station in range(3):
        for name, start in starts.items():
            coach.wind(2)
            coach.type(name[0].lower())
            tally = live.record.sheet.tallies[
                next(lane.id for lane in live.record.sheet.lanes if lane.name == name)
            ]
            done = [sizes[(start + step) % 3] for step in range(station + 1)]
            assert tally.total_reps == sum(done), f"{name}, from station {start}"
            assert len(tally.rounds) == (1 if station == 2 else 0)
    noor = next(lane.id for lane in live.record.sheet.lanes if lane.name == "Noor")
    coach.wind(2)
    coach.type("2n")
    assert live.record.sheet.tallies[noor].odd == 2, "odd reps count from where the round began"
    coach.wind(600)
    lanes = {lane["athlete"]: lane for lane in saved(coach)["pieces"][0]["lanes"]}
    assert {name: lane["start_station"] for name, lane in lanes.items()} == starts
    assert {lane["rounds"] for lane in lanes.values()} == {1}


def test_two_heats_run_one_after_the_other_and_are_ranked_together(
    open_short: Callable[..., Any],
) -> None:
    coach = open_short(PLAN.replace('count  = "station"\n', ""))
    live = coach.session.live
    choose(coach, "2 heats of 3; ")
    for heat, called in ((1, "ibn"), (2, "ptu")):
        coach.start()
        assert "".join(lane.key for lane in live.record.sheet.lanes) == called
        assert live.record.sheet.heat == heat
        coach.wind(60)
        coach.type(called[0])
        coach.wind(600)
        assert live.share_so(0).refused, "what has been started goes on as it began"
        for key in called:
            coach.wind(2)
            coach.type(f"0{key}")
        coach.wind(2)
        coach.type("<enter>")
    assert live.record.closed
    (piece,) = saved(coach)["pieces"]
    assert sorted((lane["athlete"], lane["heat"]) for lane in piece["lanes"]) == [
        ("Bram", 1),
        ("Ilse", 1),
        ("Noor", 1),
        ("Piet", 2),
        ("Tuva", 2),
        ("Uri", 2),
    ]
    assert [lane["athlete"] for lane in piece["lanes"] if lane["rank"] == 1] == ["Ilse", "Piet"]


def test_pairs_share_a_lane_and_who_came_late_to_heat_one_isnt_drawn_for_heat_two(
    open_short: Callable[..., Any],
) -> None:
    coach = open_short(club=Club.model_validate({"equipment": {"bars": 1, "boxes": 6}}))
    live = coach.session.live
    choose(coach, "in pairs, one works while the other rests, 3 heats")
    assert [lane.name for lane in live.lineup()] == ["Ilse + Bram", "Noor + Piet", "Tuva + Uri"]
    assert [lane.heat for lane in live.lineup()] == [1, 2, 3]
    coach.start()
    coach.wind(5)
    live.add_person(people_named(("Wout",))[0])
    coach.wind(600)
    coach.type("*<enter>")
    assert live.record.chosen.heat == 2
    assert all("wout" not in lane.members for lane in live.lineup() if lane.heat > 1)


def test_taken_back_all_start_together_again(open_short: Callable[..., Any]) -> None:
    coach = open_short()
    before = coach.session.live.lineup()
    for way in coach.session.offer().ways:
        coach.session.live.share_so(0, way.shared)
        assert coach.session.live.lineup() != before
        coach.session.live.share_so(0)
        assert coach.session.live.lineup() == before


def test_a_class_that_was_cut_off_has_the_same_places_and_options_though_the_library_changed(
    open_short: Callable[..., Any],
    source: WoundSource,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    monkeypatch.setattr(session_opening, "raw_now", source.now)
    coach = open_short()
    choose(coach, "2 heats of 3; ")
    live = coach.session.live
    live.choose(live.record.people[0].id, 0, type(live.record.choice("ilse", 0))((0, 2)))
    before, plan = live.lineup(), live.record.plan
    assert plan.segment[0].station[0].points, "what to coach is in the journal's plan"
    journals = tmp_path / "elsewhere" / "journals"
    journals.mkdir(parents=True)
    path = Path(shutil.copy(coach.session.journal.path, journals))
    (tmp_path / "elsewhere" / "movements.toml").write_text(
        'starter = false\n[[movement]]\nname = "box step-over"\npattern = "jump"\n'
        'standard = "quite another"\noptions = ["quite another"]\n'
    )
    session, _ = rejoin_session(
        path, folder=tmp_path / "elsewhere", club=CLUB, source=source, sound=False
    )
    assert session.live.record.plan == plan
    assert session.live.lineup() == before
    assert session.live.record.shared[0].way.startswith("2 heats of 3")
    session.close()


def test_an_option_taken_for_want_of_equipment_is_not_proposed_next_time(
    open_short: Callable[..., Any], tmp_path: Path
) -> None:
    coach = open_short(club=Club.model_validate({"equipment": {"bars": 6, "boxes": 3}}))
    choose(coach, "in place of box step-over")
    coach.start()
    coach.wind(600)
    lanes = saved(coach)["pieces"][0]["lanes"]
    used = [lane["options"][1] for lane in lanes]
    assert used.count(None) == 3, "three had no box"
    from_files = {one.modifications["headway"] for one in known_people(tmp_path / "results")}
    assert from_files == {(None, None, None)}
    book = open_book(tmp_path)
    catch_up(book, 0)
    with book.reading() as connection:
        known = remembered_people(connection)
    book.close()
    assert {one.modifications["headway"] for one in known} == {(None, None, None)}
