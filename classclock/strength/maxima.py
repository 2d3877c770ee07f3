"""A one-repetition maximum, estimated from one set of several reps."""

from decimal import Decimal
from typing import Literal, get_args

from msgspec import Struct

from classclock.units.loads import Load, shown

Formula = Literal["brzycki", "epley"]
FORMULAS: tuple[Formula, ...] = get_args(Formula)

MOST_RELIABLE_REPS = 10
MOST_REPS = 20

# Estimates run low for older adults: Knutzen et al., J Strength Cond Res 13 (1999) 242.
CAUTION = "an estimate, often low for older adults; the coach decides"


class Maximum(Struct, frozen=True):
    """What somebody could lift once, as far as one set can tell, in the unit of that set."""

    load: Load
    lifted: Load
    reps: int
    formula: Formula

    @property
    def measured(self) -> bool:
        """Whether it was lifted rather than worked out."""
        return self.reps == 1

    @property
    def unreliable(self) -> bool:
        return self.reps > MOST_RELIABLE_REPS

    @property
    def words(self) -> str:
        """What stands beside the number."""
        if self.measured:
            return "lifted once; the coach decides"
        many = f"unreliable from more than {MOST_RELIABLE_REPS} reps; " if self.unreliable else ""
        return many + CAUTION

    def __str__(self) -> str:
        """The maximum and where it comes from: `112.5 kg (100 kg x 5, Brzycki)`."""
        if self.measured:
            return shown(self.load)
        return f"{shown(self.load)} ({shown(self.lifted)} x {self.reps}, {self.formula.title()})"


def maximum(lifted: Load, reps: int, formula: Formula = "brzycki") -> Maximum:
    """Estimate from a load lifted for so many reps; one rep is the maximum itself.

    Brzycki, w * 36 / (37 - r): JOPERD 64 (1993) 88, also printed w / (1.0278 - 0.0278 r).
    Epley, w * (1 + r / 30): Poundage chart (1985), from memory; it would add a thirtieth to a
    single, so a single is a case of its own.

    Raises:
        ValueError: no rep, or too many to say anything.
    """
    if reps < 1:
        raise ValueError(f"{reps} reps: write how many reps were done, 1 to {MOST_REPS}")
    if reps > MOST_REPS:
        raise ValueError(
            f"{reps} reps say too little about a maximum: "
            f"take a set of {MOST_REPS} or fewer, better of {MOST_RELIABLE_REPS} or fewer"
        )
    if reps == 1:
        amount = lifted.amount
    elif formula == "brzycki":
        amount = lifted.amount * 36 / (37 - reps)
    else:
        amount = lifted.amount * (30 + reps) / 30
    return Maximum(Load(amount, lifted.unit), lifted, reps, formula)


def percent_of(load: Load, percent: Decimal) -> Load:
    """So many percent of a load, in its unit."""
    return Load(load.amount * percent / 100, load.unit)
