"""A bar that is shared: which one it is, and what changes on it."""

from collections.abc import Callable
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.bar_picture import change_words
from classclock.strength.plate_change import plate_change, shared_bar, shared_loadings
from classclock.strength.set_loads import set_loads
from classclock.strength.together import go_together
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, parse_load

AsLoad = Callable[[str], Load]
PAIRS = {"20": 2, "10": 2, "5": 2, "2.5": 2, "1.25": 2}


def loaded(load: str, equipment: Equipment) -> Loading:
    made = load_bar(parse_load(load, "kg"), equipment.bars[0], equipment).exact
    assert made is not None
    return made


@pytest.mark.parametrize(
    ("before", "after", "words", "plates"),
    [
        ("60 kg", "80 kg", "on 10", 1),
        ("80 kg", "60 kg", "off 10", 1),
        ("62.5 kg", "80 kg", "on 10, off 1.25", 2),
        ("60 kg", "100 kg", "on 20", 1),
        ("77.5 kg", "100 kg", "on 20, off 5 + 2.5 + 1.25", 4),
        ("60 kg", "60 kg", "the same plates", 0),
        ("20 kg", "60 kg", "on 20", 1),
    ],
)
def test_what_is_put_on_and_taken_off_a_side(
    club: Any, before: str, after: str, words: str, plates: int
) -> None:
    """By hand, from a bar of 20 kg."""
    depot = club(PAIRS)
    change = plate_change(loaded(before, depot), loaded(after, depot))
    assert (change_words(change, depot.bars[0]), change.plates) == (words, plates)


def test_in_brief_signs_say_what_goes_on_and_off(club: Any) -> None:
    depot = club(PAIRS)
    change = plate_change(loaded("62.5 kg", depot), loaded("90 kg", depot))
    assert change_words(change, depot.bars[0], brief=True) == "+10 +5 -1.25"


LOADS = st.integers(8, 60).map(lambda steps: f"{2.5 * steps} kg")


@given(LOADS, LOADS)
def test_what_is_put_on_one_way_comes_off_the_other_way(club: Any, first: str, second: str) -> None:
    depot = club(PAIRS)
    there = plate_change(loaded(first, depot), loaded(second, depot))
    back = plate_change(loaded(second, depot), loaded(first, depot))
    assert (there.on, there.off) == (back.off, back.on)
    weight = sum(plate.kg for plate in there.on) - sum(plate.kg for plate in there.off)
    assert 2 * weight == parse_load(second, "kg").kg - parse_load(first, "kg").kg


def test_one_bar_serves_all_the_heaviest_that_makes_every_load(depot: Any, kg: AsLoad) -> None:
    light, heavy = (kg("17.5"), kg("20")), (kg("60"), None)
    bars = [shared_bar(lifters, depot) for lifters in ([heavy], [light, heavy])]
    assert [bar.weight for bar in bars if bar] == [kg("20"), kg("15")]
    made = shared_loadings([light, heavy], depot)
    assert made is not None
    assert [[one.total if one else None for one in loads] for loads in made] == [
        [kg("17.5"), kg("20")],
        [kg("60"), None],
    ]
    assert shared_loadings([(kg("61"),), heavy], depot) is None


def test_who_shares_a_bar_loads_it_one_after_the_other(club: Any, kg: AsLoad) -> None:
    one_bar = club({"20": 2}, count=1)
    loads = [(kg("60"),), (kg("100"),)]
    assert set_loads(loads, 1, one_bar).waits == (False, True)
    together = set_loads(loads, 1, one_bar, partners=((0, 1),))
    assert (together.waits, together.short) == ((False, False), "")
    assert [one.total for one in together.loadings if one] == [kg("60"), kg("100")]


def test_who_shares_a_bar_has_each_set_and_the_last_one_beyond_the_end(
    depot: Any, kg: AsLoad
) -> None:
    loads = [(kg("17.5"), kg("20")), (kg("60"), kg("70"), kg("80")), ()]
    sets = [set_loads(loads, number, depot, partners=((0, 1, 2),)) for number in (1, 2, 3, 4)]
    assert [[one.total if one else None for one in each.loadings] for each in sets] == [
        [kg("17.5"), kg("60"), None],
        [kg("20"), kg("70"), None],
        [kg("20"), kg("80"), None],
        [kg("20"), kg("80"), None],
    ]
    made = [one for each in sets for one in each.loadings if one]
    assert {one.bar.name for one in made} == {"15 kg"}, "which the lightest load asks for"


def test_a_turn_for_which_there_are_not_plates_enough_is_said(club: Any, kg: AsLoad) -> None:
    two_bars = club({"20": 2}, count=2)
    loads = [(kg("60"),), (kg("100"),), (kg("60"),), (kg("60"),)]
    together = set_loads(loads, 1, two_bars, partners=((0, 1), (2, 3)))
    assert together.waits == (False, False, False, True)
    assert together.short == "not all at once: 1 pair of 20 kg short"


def test_bars_and_plates_that_go_together(club: Any, kg: AsLoad) -> None:
    depot = club({"20": 2, "10": 2}, count=2)
    bar: Bar = depot.bars[0]
    assert go_together([(bar, kg("60")), (bar, kg("60"))], depot)
    assert go_together([(bar, kg("60")), (bar, kg("100"))], depot), "two tens in place of a 20"
    assert not go_together([(bar, kg("100")), (bar, kg("100"))], depot)
    assert not go_together([(bar, kg("20"))] * 3, depot), "there are two bars"
    assert go_together([], depot)
