"""Shared ranks, against scipy and against published data."""

from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy.stats import rankdata

from classclock.tally.scores.ranks import ranks, ranks_apart

# Twenty men in a fitness club: the Linnerud data, as scikit-learn ships them.
CHIN_UPS = (5, 2, 12, 12, 13, 4, 8, 6, 15, 17, 17, 13, 14, 1, 6, 12, 4, 11, 15, 2)
SIT_UPS = (
    162, 110, 101, 105, 155, 101, 101, 125, 200, 251, 120, 210, 215, 50, 70, 210, 60, 230, 225, 110
)  # fmt: skip
JUMPS = (60, 60, 101, 37, 58, 42, 38, 40, 40, 250, 38, 115, 105, 50, 31, 120, 25, 80, 73, 43)
# Ranks worked out from them with scipy.stats.rankdata(method="min").
BY_CHIN_UPS = (15, 18, 8, 8, 6, 16, 12, 13, 3, 1, 1, 6, 5, 20, 13, 8, 16, 11, 3, 18)
BY_JUMPS = (8, 8, 5, 18, 10, 13, 16, 14, 14, 1, 16, 3, 4, 11, 19, 2, 20, 6, 7, 12)
CHIN_UPS_SIT_UPS_JUMPS = (15, 18, 10, 9, 7, 16, 12, 13, 4, 1, 2, 6, 5, 20, 14, 8, 17, 11, 3, 19)

# A name for each of the twenty, so that every lane has a letter of its own.
NAMES = tuple("ABCDEFGHIJKLMNOPQRST")


def test_shared_ranks_leave_the_next_ones_out() -> None:
    """44 42 42 41 41 41 39 rank 1 2 2 4 4 4 7: scipy.stats.rankdata(method="min")."""
    assert ranks([-n for n in (44, 42, 42, 41, 41, 41, 39)]) == (1, 2, 2, 4, 4, 4, 7)


@given(st.lists(st.integers(-50, 50)))
def test_ranks_are_those_of_scipy(keys: list[int]) -> None:
    assert list(ranks(keys)) == list(rankdata(keys, method="min"))


@pytest.mark.parametrize(("reps", "expected"), [(CHIN_UPS, BY_CHIN_UPS), (JUMPS, BY_JUMPS)])
def test_twenty_men_are_ranked_by_the_reps_typed_in(
    rehearsal: Any, reps: tuple[int, ...], expected: tuple[int, ...]
) -> None:
    piece = rehearsal(names=NAMES, format="countdown", time="5:00", score="reps")
    for name, number in zip(NAMES, reps, strict=True):
        assert piece.number(name, number, "5:30") == ""
    assert piece.ranks() == dict(zip(NAMES, expected, strict=True))


def test_a_tie_break_refines_shared_ranks_and_moves_nobody_else() -> None:
    keys = [tuple(-n for n in own) for own in zip(CHIN_UPS, SIT_UPS, JUMPS, strict=True)]
    refined = ranks(keys)
    assert refined == CHIN_UPS_SIT_UPS_JUMPS
    for shared, own in zip(BY_CHIN_UPS, refined, strict=True):
        assert own is not None
        assert shared <= own < shared + BY_CHIN_UPS.count(shared)


@given(st.lists(st.tuples(st.integers(0, 5), st.integers(0, 5))))
def test_a_tie_break_never_moves_anybody_past_another_result(keys: list[tuple[int, int]]) -> None:
    plain, refined = ranks([first for first, _ in keys]), ranks(keys)
    for shared, own in zip(plain, refined, strict=True):
        assert shared is not None
        assert own is not None
        assert shared <= own < shared + plain.count(shared)


@given(st.permutations(range(len(CHIN_UPS))))
def test_the_order_of_the_lanes_changes_no_rank(order: list[int]) -> None:
    assert ranks([-CHIN_UPS[n] for n in order]) == tuple(BY_CHIN_UPS[n] for n in order)


def test_who_has_no_result_has_no_rank() -> None:
    assert ranks([3, None, 1]) == (2, None, 1)


def test_groups_ranked_apart_each_begin_at_one() -> None:
    groups = [False, True, False, True]
    assert ranks_apart([4, 3, 2, 1], groups) == (2, 2, 1, 1)
