"""Partners and teams on the board and while they lift: chosen by a digit, seen at every size."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.club.movements import club_library
from classclock.machine.terminal import Terminal
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.planning.equipment_offers import EquipmentOffers
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.live.wall.wall_view import WallView
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_list import WhoList, likely_end
from classclock.tally.lanes import Person

PLAIN = Look(SIXTEEN, Terminal(16, None))
SIZES = [(60, 18), (120, 36), (213, 60)]
PLAN = """
title = "Depot"
[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }]
lift = "front squat"
sets = [{ reps = 3, load = "60 kg" }, { reps = 3, load = "82.5 kg" }]
score = "load"
[[segment]]
name = "Headway"
format = "rounds-in-time"
time = "5:00"
teams = 2
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 15
"""
NAMES = ("Ilse", "Ian", "Noor", "Bram", "Femke")
CLUB = Club.model_validate(
    {
        "bar": [{"name": "20 kg bar", "weight": "20 kg", "count": 2}],
        "plates": {"pairs": {"20": 4, "10": 4, "1.25": 4}},
        "equipment": {"bars": 2},
        "emergency": {
            "address": "0 Points Row",
            "defibrillator": "hall",
            "first_aid": "desk",
            "call": "112",
        },
    }
)
SQUAT, HEADWAY = 0, 1


def words(text: str) -> str:
    return " ".join(text.split())


def groups(coach: Any) -> list[list[str]]:
    names = {person.id: person.name for person in coach.live.record.people}
    return [[names[one] for one in group] for group in coach.live.partners()]


async def learned(coach: Any) -> None:
    coach.session.learn_equipment()
    coach.live.plan_loads()
    coach.screen.show()
    await coach.pilot.pause()


@pytest.mark.parametrize("size", SIZES)
async def test_a_digit_makes_partners_and_the_board_says_who_what_and_what_changes(
    open_class: Any, size: tuple[int, int]
) -> None:
    async with open_class(PLAN, names=NAMES, size=size, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        assert "5 bars are needed at once, 2 are here" in words(coach.seen())
        await coach.press("ctrl+t")
        assert "1 in pairs, turn by turn; no longer: fewest plate changes, 4 in all" in words(
            coach.seen()
        )
        await coach.press("1")
        assert groups(coach) == [["Ilse", "Ian", "Noor"], ["Bram", "Femke"]]
        assert "I Ilse + A Ian + N Noor, B Bram + F Femke" in words(coach.seen())
        assert "0: as planned" in words(coach.seen())
        await coach.press("escape")
        seen = words(coach.seen())
        assert "60 kg" in seen
        assert "then Ian: the same plates" in seen
        assert "then Ilse: on 10 + 1.25" in seen
        await coach.press("ctrl+t")
        await coach.press("0")
        assert groups(coach) == []


@pytest.mark.parametrize("size", SIZES)
async def test_the_wall_says_whose_turn_it_is(open_class: Any, size: tuple[int, int]) -> None:
    async with open_class(PLAN, names=NAMES[:2], size=size, club=CLUB) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("1")
        await coach.start()
        wall = coach.screen.query_one(WallView)
        assert [lane.turn for lane in wall.lanes] == ["now", "waits"]
        assert ">" in coach.seen()
        await coach.press("i")
        assert [lane.turn for lane in wall.lanes] == ["waits", "now"]
        assert "Ian is next" in coach.foot()
        await coach.wind(2)
        await coach.press("slash", "a")
        assert [lane.turn for lane in wall.lanes] == ["now", "waits"]
        assert wall.lanes[0].planned[0] == "now 82.5 kg: on 10 + 1.25"
        assert (wall.lanes[0].load, wall.lanes[0].plates) == ("82.5", "+10 +1.25")
        assert wall.lanes[1].plates == "waits"


async def test_whoever_is_off_the_wall_has_partners_and_no_load_there(open_class: Any) -> None:
    people = (
        Person("ilse", "Ilse", "i", marks=("off the wall",)),
        Person("ian", "Ian", "a"),
    )
    async with open_class(PLAN, people=people, club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("1")
        await coach.press("escape")
        seen = words(coach.seen())
        assert "then Ilse" in seen
        assert "then Ilse:" not in seen, "what changes would tell her load"
        await coach.start()
        await coach.press("i")
        assert "now 60 kg" in words(coach.seen())
        assert "the same plates" not in words(coach.seen())


async def test_teams_are_made_in_the_same_place_and_who_is_alone_is_said(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES, club=CLUB, look=PLAIN, segment=HEADWAY) as coach:
        await learned(coach)
        assert "ctrl+t: Femke has no team" in words(coach.seen())
        await coach.press("ctrl+t")
        seen = words(coach.seen())
        assert "Headway, 5 people 1 teams as they came 2 teams drawn by lot 0 teams as planned" in (
            seen
        )
        await coach.press("2")
        assert len(coach.live.lineup()) == 2
        assert "teams drawn by lot" in words(coach.seen())
        await coach.press("escape")
        assert "ctrl+t: teams drawn by lot" in words(coach.seen())
        await coach.press("ctrl+t")
        await coach.press("ctrl+t")
        await coach.press("1")
        assert [lane.name for lane in coach.live.lineup()] == ["Ilse + Ian", "Noor + Bram + Femke"]
        await coach.press("0")
        assert [lane.name for lane in coach.live.lineup()][-1] == "Femke"


async def test_who_comes_when_all_have_partners_is_said_to_have_none(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES[:2], club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("1")
        coach.live.add_person(Person("noor", "Noor", "n"))
        await coach.press("escape")
        assert "ctrl+t: Noor has no partner; 3 bars are needed at once, 2 are here" in words(
            coach.seen()
        )
        await coach.press("ctrl+t")
        await coach.press("ctrl+t")
        await coach.press("1")
        assert groups(coach) == [["Ilse", "Ian", "Noor"]]


async def test_the_open_list_follows_a_swap(open_class: Any) -> None:
    async with open_class(PLAN, names=NAMES[:4], club=CLUB, look=PLAIN) as coach:
        await learned(coach)
        await coach.press("ctrl+t")
        await coach.press("1")
        ids = {person.name: person.id for person in coach.live.record.people}
        coach.live.swap_places(ids["Ian"], ids["Noor"])
        coach.screen.show()
        await coach.pilot.pause()
        assert "I Ilse + N Noor, A Ian + B Bram" in words(coach.seen())


def test_pairs_chosen_at_who_is_here_are_partners_as_they_came(tmp_path: Path) -> None:
    plan, findings = parse_plan(PLAN, "t.toml")
    assert plan is not None, findings
    end = likely_end(datetime(2026, 3, 3, 18, tzinfo=UTC), 3_600_000)
    desk = WhoDesk(WhoList(plan, "kg", (), end), mirrored=True, today=end.date())
    desk.sharing.offers = EquipmentOffers(CLUB, club_library(tmp_path)[0])
    for name in NAMES:
        for sign in (*name, "<enter>"):
            desk.sign(sign)
    (offer,) = desk.sharing.short()
    pairs = next(number for number, way in enumerate(offer.ways, start=1) if way.by_partners)
    desk.sign("<ctrl+t>")
    desk.sign(str(pairs))
    way = desk.sharing.chosen()[SQUAT]
    names = {person.id: person.name for person in desk.who.people}
    assert [[names[one] for one in group] for group in way.partners] == [
        ["Ilse", "Ian"],
        ["Noor", "Bram", "Femke"],
    ]
    assert way.sharing is not None
    assert all(len(place.members) == 1 for place in way.sharing.places), "a lane for each"
