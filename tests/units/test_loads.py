from collections.abc import Callable
from decimal import Decimal
from fractions import Fraction

import pytest
from hypothesis import given
from hypothesis import strategies as st
from scipy import constants

from classclock.units.loads import Load, both_units, in_unit, parse_load, shown, total_of

AsLoad = Callable[[str], Load]


@pytest.mark.parametrize(
    ("written", "kilograms"),
    # 1 lb is 0.45359237 kg exactly: the 1959 agreement; NIST SP 811, appendix B.
    [
        ("45 lb", "20.41165665"),
        ("35 lb", "15.87573295"),
        ("135 lb", "61.23496995"),
        ("225 lb", "102.05828325"),
    ],
)
def test_a_load_in_pounds_is_exact_in_kilograms(kg: AsLoad, written: str, kilograms: str) -> None:
    assert kg(written).kg == Decimal(kilograms)


def test_the_pound_is_that_of_the_physicists_tables(kg: AsLoad) -> None:
    # scipy.constants, CODATA; a float, so compared as the decimal it prints.
    assert str(constants.lb) == "0.45359236999999997"
    assert float(kg("1 lb").kg) == pytest.approx(constants.lb, rel=1e-15)


def test_a_45_lb_bar_reads_45_lb(kg: AsLoad) -> None:
    assert shown(kg("45lb")) == "45 lb"
    assert both_units(kg("45 lb"), "kg") == "45 lb (20.41 kg)"
    assert both_units(kg("45 lb"), "lb") == "45 lb"


def test_mixed_plates_add_up_exactly(kg: AsLoad) -> None:
    total = total_of([kg("20"), kg("45 lb"), kg("45 lb"), kg("1.25")], "kg")
    assert total == Load(Decimal("62.07331330"), "kg")
    assert shown(total) == "62.07 kg"


def test_plates_of_one_unit_keep_it(kg: AsLoad) -> None:
    plates = ("35 lb", "35 lb", "2.5 lb", "2.5 lb")
    assert total_of([kg("25 lb"), *map(kg, plates)], "kg") == kg("100 lb")
    assert total_of([], "lb") == Load(Decimal(0), "lb")


def test_what_was_entered_to_the_gram_is_shown_to_the_gram(kg: AsLoad) -> None:
    assert shown(kg("1.125")) == "1.125 kg"


@pytest.mark.parametrize(
    ("written", "read"),
    [("100", "100 kg"), ("22.50", "22.5 kg"), ("60,0 kg", "60 kg"), ("0.5 lb", "0.5 lb")],
)
def test_a_load_is_written_without_zeros_that_say_nothing(
    kg: AsLoad, written: str, read: str
) -> None:
    assert str(kg(written)) == shown(kg(written)) == read


def test_an_exponent_is_written_out() -> None:
    assert str(Load(Decimal("1E+2"), "kg")) == "100 kg"


def test_a_load_keeps_its_unit_when_that_is_the_one_asked_for(kg: AsLoad) -> None:
    assert in_unit(kg("20,5"), "kg") == kg("20.5")
    assert in_unit(kg("60"), "lb") == kg("132.28 lb")


@given(st.integers(1, 9_999_999), st.sampled_from(["kg", "lb"]))
def test_every_load_that_can_be_written_is_read_back(thousandths: int, unit: str) -> None:
    written = f"{Decimal(thousandths) / 1000} {unit}"
    load = parse_load(written, "kg")
    assert parse_load(str(load), "kg") == load
    pound = Fraction(45_359_237, 100_000_000)
    assert Fraction(load.kg) == Fraction(thousandths, 1000) * (pound if unit == "lb" else 1)


@pytest.mark.parametrize("written", ["", "heavy", "0", "-5", "12345", "5 st", "nan", "1e3"])
def test_what_is_no_load_is_refused_in_words(written: str) -> None:
    with pytest.raises(ValueError, match=r"not a load|no load"):
        parse_load(written, "kg")


def test_digits_of_another_script_are_refused_with_which_to_write() -> None:
    with pytest.raises(ValueError, match="with the digits 0 to 9"):
        parse_load("\u0668\u0660", "kg")
