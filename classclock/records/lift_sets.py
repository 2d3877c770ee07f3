"""What each set of a lift says of the most that somebody could lift once. Pure."""

from collections.abc import Iterable
from decimal import Decimal

from classclock.records.result import Result, kg_of
from classclock.records.written_terms import set_reps
from classclock.strength.maxima import MOST_RELIABLE_REPS, Maximum, maximum
from classclock.units.loads import parse_load


def reps_of(made: Result) -> int | None:
    """How many reps the set had; None where nobody said, or it is no score in loads."""
    return set_reps(made.terms.work) if made.kind == "load" else None


def maximum_of(made: Result) -> Maximum | None:
    """What somebody could lift once, by the one formula of `strength/maxima.py`.

    None where nobody said how many reps the set had, where it had more than the formula is to be
    relied on for, or where several shared the score: nobody knows who lifted what.
    """
    reps = reps_of(made)
    if reps is None or made.terms.team > 1 or not 1 <= reps <= MOST_RELIABLE_REPS:
        return None
    try:
        return maximum(parse_load(made.score, "kg"), reps)
    except ValueError:
        return None  # a file that somebody wrote by hand


def could_lift(made: Result) -> Decimal:
    """Kilograms: the maximum, or where none is estimated the load, made once at least."""
    best = maximum_of(made)
    return kg_of(made.worth or 0).amount if best is None else best.load.kg


def says_most(sets: Iterable[Result]) -> Result | None:
    """The set with the highest maximum; of equal ones the earliest, since it stood first."""
    counting = [one for one in sets if one.counts]
    return max(counting, key=lambda one: (could_lift(one), -one.moment), default=None)


def beside(best: Result, sets: Iterable[Result]) -> tuple[Result, ...]:
    """The sets, heaviest first, that say more than the best and the heavier ones do.

    A set says nothing more where one at least as heavy had at least as many reps.
    """
    told = [best]
    for made in sorted(sets, key=lambda one: (one.worth or 0, reps_of(one) or 1), reverse=True):
        if not any(_outdoes(one, made) for one in told):
            told.append(made)
    return tuple(told[1:])


def _outdoes(one: Result, other: Result) -> bool:
    heavier = (one.worth or 0) >= (other.worth or 0)
    return heavier and (reps_of(one) or 1) >= (reps_of(other) or 1)
