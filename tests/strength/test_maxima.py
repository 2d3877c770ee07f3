from collections.abc import Callable
from decimal import Decimal

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.strength.maxima import FORMULAS, Formula, maximum, percent_of
from classclock.units.loads import Load

AsLoad = Callable[[str], Load]

# NSCA Training Load Chart: reps, and the percentage of the maximum that goes with them.
CHART = {1: 100, 2: 95, 3: 93, 4: 90, 5: 87, 6: 85, 7: 83, 8: 80, 9: 77, 10: 75}
# The same chart's row for a maximum of 140, from 2 reps to 10 (printed to a tenth).
ROW_OF_140 = (133, 130.2, 126, 121.8, 119, 116.2, 112, 107.8, 105)


def percentage(reps: int, formula: Formula) -> Decimal:
    """Which percentage of the maximum a set of so many reps is taken to be."""
    hundred = Load(Decimal(100), "kg")
    return 100 * 100 / maximum(hundred, reps, formula).load.amount


@pytest.mark.parametrize("reps", CHART)
@pytest.mark.parametrize(("formula", "within"), [("brzycki", "2.3"), ("epley", "2.1")])
def test_an_estimate_is_near_the_published_chart(reps: int, formula: Formula, within: str) -> None:
    assert abs(percentage(reps, formula) - CHART[reps]) <= Decimal(within)


def test_the_chart_is_furthest_from_brzycki_at_two_reps() -> None:
    off = {reps: abs(percentage(reps, "brzycki") - chart) for reps, chart in CHART.items()}
    assert max(off, key=lambda reps: off[reps]) == 2
    assert round(off[2], 2) == Decimal("2.22")


@pytest.mark.parametrize(("reps", "load"), list(enumerate(ROW_OF_140, start=2)))
def test_a_percentage_of_140_is_as_the_chart_prints_it(reps: int, load: float) -> None:
    hundred_and_forty = Load(Decimal(140), "kg")
    assert percent_of(hundred_and_forty, Decimal(CHART[reps])).amount == Decimal(str(load))


@pytest.mark.parametrize("reps", range(2, 11))
def test_brzycki_agrees_with_the_decimals_it_is_also_printed_with(reps: int) -> None:
    # w / (1.0278 - 0.0278 r): Brzycki, JOPERD 64 (1993) 88.
    printed = 100 / (Decimal("1.0278") - Decimal("0.0278") * reps)
    assert maximum(Load(Decimal(100), "kg"), reps).load.amount == pytest.approx(
        printed, rel=Decimal("0.001")
    )


def test_the_formulas_meet_at_ten_reps_only(kg: AsLoad) -> None:
    def meet(reps: int) -> bool:
        return maximum(kg("100"), reps, "brzycki").load == maximum(kg("100"), reps, "epley").load

    assert [reps for reps in range(2, 21) if meet(reps)] == [10]
    assert round(maximum(kg("100"), 10).load.amount, 2) == Decimal("133.33")


@pytest.mark.parametrize("five", [40, 60, 80, 100])
@pytest.mark.parametrize("formula", FORMULAS)
def test_five_reps_give_about_what_was_measured_on_the_chest_press(
    formula: Formula, five: int
) -> None:
    # 1.1307 x 5RM + 0.6999 kg: Reynolds et al., J Strength Cond Res 20 (2006) 584. A band.
    measured = 1.1307 * five + 0.6999
    estimate = maximum(Load(Decimal(five), "kg"), 5, formula).load.amount
    assert float(estimate) == pytest.approx(measured, rel=0.04)


@pytest.mark.parametrize("formula", FORMULAS)
def test_a_single_is_the_maximum_itself(kg: AsLoad, formula: Formula) -> None:
    single = maximum(kg("82.5"), 1, formula)
    assert single.load == kg("82.5")
    assert single.measured
    assert str(single) == "82.5 kg"


def test_an_estimate_says_where_it_comes_from_and_that_the_coach_decides(kg: AsLoad) -> None:
    estimate = maximum(kg("100"), 5)
    assert str(estimate) == "112.5 kg (100 kg x 5, Brzycki)"
    assert estimate.words == "an estimate, often low for older adults; the coach decides"


def test_an_estimate_keeps_the_unit_of_the_set(kg: AsLoad) -> None:
    assert maximum(kg("200 lb"), 5).load == kg("225 lb")


def test_above_ten_reps_it_is_marked_unreliable(kg: AsLoad) -> None:
    assert not maximum(kg("60"), 10).unreliable
    assert maximum(kg("60"), 11).unreliable
    assert "unreliable" in maximum(kg("60"), 11).words


@pytest.mark.parametrize("reps", [21, 36, 37, 500])
def test_above_twenty_reps_it_is_refused(kg: AsLoad, reps: int) -> None:
    with pytest.raises(ValueError, match=f"{reps} reps say too little"):
        maximum(kg("60"), reps)
    assert maximum(kg("60"), 20).unreliable


@pytest.mark.parametrize("reps", [0, -3])
def test_no_reps_are_refused(kg: AsLoad, reps: int) -> None:
    with pytest.raises(ValueError, match="how many reps"):
        maximum(kg("60"), reps)


@given(st.integers(1, 19), st.integers(1, 400_000), st.sampled_from(FORMULAS))
def test_more_reps_with_the_same_load_never_mean_a_lower_maximum(
    reps: int, grams: int, formula: Formula
) -> None:
    load = Load(Decimal(grams) / 1000, "kg")
    assert (
        load.kg <= maximum(load, reps, formula).load.kg < maximum(load, reps + 1, formula).load.kg
    )
