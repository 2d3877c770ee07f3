"""A load as it was entered, with its unit, and in kilograms without conversion noise."""

import re
from collections.abc import Iterable
from decimal import ROUND_HALF_EVEN, ROUND_HALF_UP, Decimal
from typing import Literal

from msgspec import Struct

from classclock.units.digits import has_other_digits

Unit = Literal["kg", "lb"]

# The international pound of 1959, exact by definition (NIST SP 811, appendix B).
KG_PER_LB = Decimal("0.45359237")

_WRITTEN = re.compile(r"\s*(\d{1,4}(?:[.,]\d{1,3})?)\s*(kg|lb)?\s*", re.ASCII | re.IGNORECASE)


class Load(Struct, frozen=True):
    """A load as it was entered: 45 lb stays 45 lb."""

    amount: Decimal
    unit: Unit

    @property
    def kg(self) -> Decimal:
        """The load in kilograms, exact."""
        return self.amount if self.unit == "kg" else self.amount * KG_PER_LB

    def __str__(self) -> str:
        """The load as a person writes it: `22.5 kg`."""
        return f"{plain(self.amount)} {self.unit}"


def plain(amount: Decimal) -> str:
    """A number without trailing zeros or an exponent: 22.50 is 22.5, 1E+2 is 100."""
    text = format(amount, "f")
    return text.rstrip("0").rstrip(".") if "." in text else text


def total_of(loads: Iterable[Load], unit: Unit) -> Load:
    """Add loads up, exactly: in their own unit if they share one, else in kilograms.

    `unit` is for the sum of none.
    """
    loads = tuple(loads)
    units = {load.unit for load in loads} or {unit}
    if len(units) == 1:
        return Load(sum((load.amount for load in loads), Decimal(0)), units.pop())
    return Load(sum((load.kg for load in loads), Decimal(0)), "kg")


def in_unit(load: Load, unit: Unit) -> Load:
    """The load in this unit: as it is where it has it, else to the nearest hundredth."""
    if load.unit == unit:
        return load
    amount = load.kg if unit == "kg" else load.kg / KG_PER_LB
    return Load(amount.quantize(Decimal("0.01"), ROUND_HALF_EVEN), unit)


def shown(load: Load) -> str:
    """The load for a person to read, to the nearest hundredth where it has more decimals."""
    return str(Load(_readable(load.amount), load.unit))


def to_hundredths(load: Load) -> Load:
    """A difference, to the nearest hundredth: beside others it has as many decimals as they."""
    return Load(load.amount.quantize(Decimal("0.01"), ROUND_HALF_UP), load.unit)


def both_units(load: Load, unit: Unit) -> str:
    """The load, and in the unit asked for what that is about: `60 kg (132.28 lb)`."""
    return shown(load) if load.unit == unit else f"{shown(load)} ({in_unit(load, unit)})"


def _readable(amount: Decimal) -> Decimal:
    nearest = amount.quantize(Decimal("0.01"), ROUND_HALF_EVEN)
    # What somebody entered with three decimals, or a plate of 1.125 kg, is no noise.
    return amount if amount == amount.quantize(Decimal("0.001")) else nearest


def parse_load(written: str, unit: Unit) -> Load:
    """Read `22.5 kg`, `50 lb` or a bare number, which is in the club's `unit`.

    A comma is a decimal mark too.

    Raises:
        ValueError: it isn't a load, or it is zero.
    """
    match = _WRITTEN.fullmatch(written)
    if match is None:
        digits = ", with the digits 0 to 9" if has_other_digits(written) else ""
        raise ValueError(f'"{written}" is not a load: write "22.5 kg" or "50 lb"{digits}')
    amount = Decimal(match[1].replace(",", "."))
    if amount == 0:
        raise ValueError(f'"{written}" is no load: leave it out')
    named: Unit = "lb" if (match[2] or unit).lower() == "lb" else "kg"
    return Load(amount, named)
