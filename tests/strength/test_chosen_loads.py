"""Loads that were chosen in place of the planned ones: for a set, or for every set."""

from collections.abc import Callable

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.strength.chosen_loads import ChosenLoads, as_chosen, choose
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]


@pytest.fixture
def planned(kg: AsLoad) -> tuple[Load | None, ...]:
    return (kg("50"), None, kg("70"))


def test_what_was_said_of_all_holds_but_for_the_sets_that_were_named(
    planned: tuple[Load | None, ...], kg: AsLoad
) -> None:
    every = choose({}, None, kg("40"))
    assert as_chosen(planned, every) == (kg("40"), kg("40"), kg("40"))
    first = choose(every, 1, kg("30"))
    assert as_chosen(planned, first) == (kg("30"), kg("40"), kg("40"))
    assert as_chosen(planned, choose(first, 1, None)) == (kg("40"), kg("40"), kg("40"))
    assert as_chosen(planned, choose(first, None, kg("45"))) == (kg("45"),) * 3


def test_what_was_said_of_one_set_leaves_the_others_as_planned_until_it_is_taken_back(
    planned: tuple[Load | None, ...], kg: AsLoad
) -> None:
    second = choose({}, 2, kg("60"))
    assert as_chosen(planned, second) == (kg("50"), kg("60"), kg("70"))
    both = choose(second, 3, kg("65"))
    assert as_chosen(planned, both) == (kg("50"), kg("60"), kg("65"))
    assert as_chosen(planned, choose(both, 2, None)) == (kg("50"), None, kg("65"))
    assert as_chosen(planned, choose(both, None, None)) == planned


def test_beyond_the_plans_end_the_last_one_planned_goes_on(
    planned: tuple[Load | None, ...], kg: AsLoad
) -> None:
    assert as_chosen(planned, choose({}, 5, kg("80"))) == (*planned, kg("70"), kg("80"))
    assert as_chosen((), choose({}, 2, kg("80"))) == (None, kg("80"))
    assert as_chosen((), choose({}, None, kg("80"))) == (kg("80"),)


@given(
    st.lists(st.tuples(st.none() | st.integers(1, 6), st.none() | st.integers(1, 200)), max_size=8)
)
def test_of_each_set_the_latest_word_holds(
    kg: AsLoad, said: list[tuple[int | None, int | None]]
) -> None:
    chosen: ChosenLoads = {}
    for number, load in said:
        chosen = choose(chosen, number, None if load is None else kg(str(load)))
    # Said another way: a word about all of them wipes out whatever was said before it.
    since = max((at for at, (number, _) in enumerate(said) if number is None), default=None)
    every = None if since is None else said[since][1]
    of_one = dict(said[0 if since is None else since + 1 :])
    for number, lifted in enumerate(as_chosen([kg("7")] * 6, chosen), start=1):
        expected = of_one.get(number) or every or 7
        assert lifted == kg(str(expected))
