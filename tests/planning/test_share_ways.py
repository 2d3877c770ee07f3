"""The ways to share that are offered on the board: partners by plates, teams three ways."""

from typing import Any

import pytest

from classclock.plan.reading.plan_reading import parse_plan
from classclock.planning.cap_fit import Basis, Past
from classclock.planning.equipment_offers import Offer
from classclock.planning.share_ways import Known, ways_on_the_board
from classclock.records.result import Result, Terms, rounds_worth
from classclock.strength.class_loads import ClassLoads, Handled, LiftHistory
from classclock.tally import events as ev
from classclock.tally.lane_keys import people_named
from classclock.tally.lanes import Person, Teams
from classclock.tally.record import ClassRecord
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, parse_load

PLAN = """
title = "Depot"
[[segment]]
name = "Squat"
format = "interval"
repeat = 2
steps = [{ work = "2:00" }]
lift = "front squat"
sets = [{ reps = 3, percent = 50 }, { reps = 3, percent = 60 }]
score = "load"
[[segment]]
name = "Heavy single"
format = "countdown"
time = "12:00"
lift = "front squat"
score = "load"
[[segment]]
name = "Swings"
format = "countdown"
time = "12:00"
lift = "kettlebell swing"
sets = [{ reps = 10, load = "16 kg" }]
score = "load"
[[segment]]
name = "Headway"
benchmark = "headway"
format = "rounds-in-time"
time = "5:00"
teams = 2
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 15
[[segment]]
name = "Alone"
format = "rounds-in-time"
time = "5:00"
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 15
"""
SQUAT, SINGLE, SWINGS, HEADWAY, ALONE = range(5)
MAXIMA = {"Ilse": "100 kg", "Ian": "160 kg", "Noor": "100 kg", "Bram": "160 kg"}
SEED = 7


def kg(amount: str) -> Load:
    return parse_load(amount, "kg")


EQUIPMENT = Equipment(
    (Bar("20 kg bar", kg("20 kg"), 6),),
    tuple((kg(f"{plate} kg"), 8) for plate in ("20", "15", "10", "5", "2.5", "1.25")),
)


def board(segment: int, *names: str, people: tuple[Person, ...] = ()) -> ClassRecord:
    plan, findings = parse_plan(PLAN, "depot.toml")
    assert plan is not None, findings
    here = people or people_named(names)
    record = ClassRecord(plan).apply(0, ev.ClassOpened(0, "depot", "", "kg", here, None))
    return record.apply(1, ev.SegmentChosen(0, segment))


def offered(record: ClassRecord, **past: str) -> Offer | None:
    handled = {name: {"front squat": Handled(kg(load), kg(load))} for name, load in MAXIMA.items()}
    loads = ClassLoads(record.plan, EQUIPMENT, LiftHistory(handled))
    basis = Basis({name: (rounds(score),) for name, score in past.items()})
    return ways_on_the_board(record, Known(EQUIPMENT, loads, basis, SEED), None)


def rounds(score: str) -> Past:
    whole, odd = map(int, score.split("+"))
    worth, total = rounds_worth(whole, odd), whole * 15 + odd
    terms = Terms("", "", "5:00")
    return Past(
        Result("x", "Headway", "headway", "2026-10-02", 1, score, "rounds", worth, total, terms)
    )


def words(offer: Offer | None) -> list[str]:
    assert offer is not None
    return [way.words for way in offer.ways]


def test_partners_by_plates_come_first_then_as_they_came() -> None:
    """By hand: 50 kg is a 15 a side, 60 a 20, 80 a 20 and a 10, 95 a 20, a 15 and a 2.5.

    Equals change only between the sets: 2 plates for 50 to 60, 3 for 80 to 95. 50, 80, 60, 95 is
    3, 1 and 2 plates, twice.
    """
    offer = offered(board(SQUAT, *MAXIMA))
    assert words(offer) == ["fewest plate changes, 5 in all", "as they came, 12 plate changes"]
    assert offer is not None
    assert [way.shared.partners for way in offer.ways] == [
        (("Ilse", "Noor"), ("Ian", "Bram")),
        (("Ilse", "Ian"), ("Noor", "Bram")),
    ]
    assert (offer.short, offer.otherwise, offer.planned) == ("", "", "nobody shares a bar")


def test_where_they_came_like_that_it_is_offered_once() -> None:
    assert len(words(offered(board(SQUAT, "Ilse", "Noor", "Ian", "Bram")))) == 1


def test_without_sets_the_heaviest_that_each_has_handled_says_who_is_as_strong() -> None:
    offer = offered(board(SINGLE, *MAXIMA))
    assert offer is not None
    assert offer.ways[0].shared.partners == (("Ilse", "Noor"), ("Ian", "Bram"))
    assert words(offer) == ["partners by the heaviest each has lifted", "partners as they came"]
    assert words(offered(board(SINGLE, "Uri", "Tuva"))) == ["partners as they came"]


def test_a_newcomer_shares_with_somebody_who_isnt() -> None:
    people = (
        Person("Ilse", "Ilse", "i", newcomer=True),
        Person("Noor", "Noor", "n", marks=("newcomer",)),
        Person("Ian", "Ian", "a"),
        Person("Bram", "Bram", "b"),
    )
    offer = offered(board(SQUAT, people=people))
    assert offer is not None
    groups = offer.ways[0].shared.partners
    assert all(len({"Ilse", "Noor"} & set(group)) == 1 for group in groups)


def test_without_a_bar_no_plates_are_spoken_of() -> None:
    assert words(offered(board(SWINGS, *MAXIMA))) == ["partners as they came"]


def test_nobody_is_offered_a_partner_who_is_alone_or_whose_piece_has_no_bar() -> None:
    assert offered(board(SQUAT, "Ilse")) is None
    assert offered(board(ALONE, *MAXIMA)) is None


def test_what_has_been_started_is_shared_no_more() -> None:
    record = board(SQUAT, *MAXIMA)
    assert offered(record.apply(2, ev.SegmentStarted(1, SQUAT, 1, 11, ()))) is None


def test_teams_as_they_came_by_lot_and_even() -> None:
    record = board(HEADWAY, "Ilse", "Ian", "Noor", "Bram")
    offer = offered(record, Ilse="9+0", Ian="8+0", Noor="4+0", Bram="5+0")
    assert words(offer) == [
        "teams as they came",
        "teams drawn by lot",
        "teams even within 0 %, all are known",
    ]
    assert offer is not None
    came, drawn, even = (way.shared.teams for way in offer.ways)
    assert came == Teams((("Ilse", "Ian"), ("Noor", "Bram")), "as they came")
    assert drawn is not None
    assert offer.ways[1].shared.seed == SEED
    assert even is not None
    # 9 and 4 rounds, 8 and 5: thirteen each.
    assert set(map(frozenset, even.groups)) == {
        frozenset({"Ilse", "Noor"}),
        frozenset({"Ian", "Bram"}),
    }


@pytest.mark.parametrize(
    ("past", "said"),
    [
        ({}, None),
        ({"Ilse": "8+0"}, "1 of 4 are known"),
        ({"Ilse": "8+0", "Ian": "6+0", "Noor": "4+0"}, "3 of 4 are known"),
    ],
)
def test_even_is_offered_as_far_as_the_book_tells_and_says_how_far(
    past: dict[str, Any], said: str | None
) -> None:
    every = words(offered(board(HEADWAY, "Ilse", "Ian", "Noor", "Bram"), **past))
    assert [one.split(", ")[1] for one in every if "even" in one] == ([said] if said else [])


def test_how_even_is_rounded_up() -> None:
    """By hand: 90 and 60 reps in 5:00 are 30 apart, of 75 in the mean: 40 %."""
    record = board(HEADWAY, "Ilse", "Ian", "Noor", "Bram")
    same = {"Ilse": "6+0", "Ian": "6+0", "Noor": "6+0", "Bram": "2+0"}
    # Whoever does 30 is with one of 90: 60 and 90 in the mean.
    assert "teams even within 40 %, all are known" in words(offered(record, **same))


def test_the_last_one_alone_is_put_into_a_team_of_three() -> None:
    offer = offered(board(HEADWAY, "Ilse", "Ian", "Noor", "Bram", "Femke"))
    assert offer is not None
    for way in offer.ways:
        assert way.shared.teams is not None
        assert sorted(map(len, way.shared.teams.groups)) == [2, 3]
