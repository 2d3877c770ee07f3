"""Who stands in which lane, and with which letter."""

from string import ascii_lowercase
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.tally.lane_keys import (
    KeyChange,
    assign_keys,
    letters_of,
    people_named,
    propose_key,
)
from classclock.tally.lanes import Choice, Person, Place
from classclock.tally.lineup import draw_lanes


@pytest.mark.parametrize(
    ("name", "taken", "key"),
    [
        ("Noor", "", "n"),
        ("Noor", "n", "o"),
        ("Noor", "no", "r"),
        ("Noor", "nor", "a"),
        ("Ødegård", "", "o"),
        ("Łucja", "", "l"),
        ("Élodie", "", "e"),
        ("Şirin", "", "s"),
        ("Žofie 2", "z", "o"),
        ("王", "ab", "c"),
        ("", "", "a"),
    ],
)
def test_a_key_is_a_letter_of_the_name_with_accents_folded_else_the_next_free(
    name: str, taken: str, key: str
) -> None:
    assert propose_key(name, taken) == key


@given(st.lists(st.text(max_size=12), max_size=26, unique=True))
def test_up_to_26_people_each_have_a_letter_of_their_own(names: list[str]) -> None:
    keys = [person.key for person in people_named(names)]
    assert len(set(keys)) == len(keys)
    assert set(keys) <= set(ascii_lowercase)


@given(st.text(max_size=30))
def test_only_letters_a_to_z_are_keys(name: str) -> None:
    assert set(letters_of(name)) <= set(ascii_lowercase)


def test_if_two_come_with_one_key_the_more_regular_keeps_it_and_the_change_is_shown() -> None:
    noor, nadia = Person("1", "Noor", "n"), Person("2", "Nadia", "n")
    people, changes = assign_keys((noor, nadia), {"1": 3, "2": 40})
    assert [person.key for person in people] == ["o", "n"]
    assert changes == (KeyChange(people[0], "n", "o"),)


def test_a_key_stays_that_athletes_though_another_would_like_it() -> None:
    newcomer, noor = Person("1", "Nils", ""), Person("2", "Noor", "n")
    people, changes = assign_keys((newcomer, noor), {"2": 1})
    assert [person.key for person in people] == ["i", "n"]
    assert changes == ()


@given(st.lists(st.tuples(st.sampled_from("abcn"), st.integers(0, 9)), max_size=26))
def test_assigned_keys_are_never_shared(came: list[tuple[str, int]]) -> None:
    people = tuple(Person(str(n), "Noor", key) for n, (key, _) in enumerate(came))
    classes = {str(n): times for n, (_, times) in enumerate(came)}
    assigned, _ = assign_keys(people, classes)
    assert len({person.key for person in assigned}) == len(people)


def _people(number: int) -> tuple[Person, ...]:
    return people_named([f"Athlete {n}" for n in range(1, number + 1)])


def test_each_athlete_has_a_lane(segment_of: Any, turntable: Any) -> None:
    choices = {"Bram": Choice(options=(2,), load="lighter", start_station=1)}
    lanes = draw_lanes(segment_of(**turntable), people_named(("Ilse", "Bram")), choices)
    assert [(lane.id, lane.name, lane.key, lane.members) for lane in lanes] == [
        ("Ilse", "Ilse", "i", ("Ilse",)),
        ("Bram", "Bram", "b", ("Bram",)),
    ]
    assert (lanes[1].options, lanes[1].load, lanes[1].start_station) == ((2,), "lighter", 1)


def test_teams_share_a_lane_with_the_first_ones_key(segment_of: Any, turntable: Any) -> None:
    people = people_named(("Ilse", "Bram", "Noor", "Piet", "Tuva"))
    lanes = draw_lanes(segment_of(**turntable, teams=2), people, {})
    assert [(lane.name, lane.key) for lane in lanes] == [
        ("Ilse + Bram", "i"),
        ("Noor + Piet", "n"),
        ("Tuva", "t"),
    ]
    assert lanes[0].members == ("Ilse", "Bram")


@pytest.mark.parametrize(
    ("people", "sizes"), [(26, [26]), (27, [13, 14]), (52, [26, 26]), (60, [20, 20, 20]), (0, [])]
)
def test_more_than_26_lanes_run_in_heats_of_even_size(
    segment_of: Any, turntable: Any, people: int, sizes: list[int]
) -> None:
    lanes = draw_lanes(segment_of(**turntable), _people(people), {})
    heats = sorted({lane.heat for lane in lanes})
    assert heats == list(range(1, len(sizes) + 1))
    assert [sum(lane.heat == heat for lane in lanes) for heat in heats] == sizes


@given(st.integers(0, 80))
def test_within_a_heat_no_key_is_shared(segment_of: Any, turntable: Any, people: int) -> None:
    lanes = draw_lanes(segment_of(**turntable), _people(people), {})
    assert len({(lane.heat, lane.key) for lane in lanes}) == len(lanes)


@pytest.mark.parametrize(
    ("own", "shared", "options"),
    [
        ((1, 0, 1), (0, 2), (1, 2, 1)),
        ((1,), (0, 2, 0), (1, 2, 0)),
        ((), (2, 0, 0), (2, 0, 0)),
        ((0, 2, 0), (), (0, 2, 0)),
    ],
)
def test_an_easier_option_for_want_of_equipment_leaves_the_others_as_chosen(
    segment_of: Any, turntable: Any, own: Any, shared: Any, options: Any
) -> None:
    people = people_named(("Ilse", "Noor"))
    place = Place((people[0].id,), options=shared)
    choices = {people[0].id: Choice(own)}
    first, _ = draw_lanes(segment_of(**turntable), people, choices, [place])
    assert first.options == options
    assert first.own_options == (own if any(shared) else None)
