"""One set for everybody at once, from the worked examples' set of plates."""

from collections.abc import Callable

from classclock.strength.bar_picture import side_words
from classclock.strength.set_loads import own_loading, set_loads
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]


def test_each_set_has_its_plates_on_one_and_the_same_bar(depot: Equipment, kg: AsLoad) -> None:
    loads = (kg("65"), kg("80"))
    sides = [own_loading(loads, number, depot) for number in (1, 2, 3)]
    assert [side_words(side) for side in sides if side] == [
        "20 + 2.5 a side",
        "20 + 10 a side",
        "20 + 10 a side",
    ]
    assert {side.bar.name for side in sides if side} == {"20 kg"}


def test_whose_load_nobody_planned_has_no_bar_yet(depot: Equipment) -> None:
    assert own_loading((None, None), 1, depot) is None
    assert own_loading((), 1, depot) is None


def test_a_set_without_a_load_leaves_the_others_theirs(depot: Equipment, kg: AsLoad) -> None:
    loads = (None, kg("60"), kg("17.5"))
    sides = [own_loading(loads, number, depot) for number in (1, 2, 3)]
    assert [side and side_words(side) for side in sides] == [
        None,
        "20 + 2.5 a side",
        "1.25 a side",
    ], "all on the 15 kg bar, for the sake of the lightest"


def test_those_who_lift_together_share_the_plates_out(depot: Equipment, kg: AsLoad) -> None:
    # One pair of 20 kg: the second bar is loaded with 15 and 5.
    together = set_loads([(kg("60"),), (kg("60"),), (None,)], 1, depot)
    loaded = [side_words(one) if one else "" for one in together.loadings]
    assert sorted(loaded) == ["", "15 + 5 a side", "20 a side"]
    assert together.waits == (False, False, False)
    assert together.short == ""


def test_what_is_short_is_said_and_who_waits(club: Club, kg: AsLoad) -> None:
    few = club({"20": 1}, bars=("20 kg",), count=1)
    together = set_loads([(kg("60"),), (None,), (kg("60"),)], 1, few)
    assert together.waits == (False, False, True)
    assert together.short == "not all at once: 1 pair of 20 kg, 1 of the 20 kg short"
    assert together.loadings[2] is not None, "whoever waits still sees what to load then"
