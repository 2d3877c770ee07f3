"""What stands of the loads that a lane tried, once its score is what it is."""

from collections.abc import Iterator
from decimal import Decimal

from classclock.records.document import AttemptMade, LaneResults
from classclock.units.loads import Load, parse_load

NO_SET = 0
"""In place of a set's number: nobody said in which one a corrected load was made."""


def standing_attempts(lane: LaneResults) -> Iterator[AttemptMade]:
    """All that was tried, as the score has it: it decides on the heaviest made.

    A load above it was put right (`825` typed for 82.5), and a score that no attempt made is what
    it was put right to.
    """
    heaviest = lane.load_kg
    if heaviest is None:
        yield from lane.attempts
        return
    standing = [one for one in lane.attempts if not (one.made and (one.load_kg or 0) > heaviest)]
    yield from standing
    if all(one.load_kg != heaviest for one in standing if one.made):
        yield AttemptMade(NO_SET, _entered(lane.score, heaviest), heaviest, made=True)


def _entered(score: str, heaviest: float) -> str:
    """The score's load, with the unit that it was entered in."""
    kg = Decimal(str(heaviest))
    try:
        load = parse_load(score, "kg")
    except ValueError:
        return str(Load(kg, "kg"))
    return str(load if load.kg == kg else Load(kg, "kg"))


def reps_of_set(sets: tuple[int, ...], number: int) -> int | None:
    """How many reps a set has; one beyond the last planned is like the last."""
    return sets[min(number, len(sets)) - 1] if sets and number > NO_SET else None


def kilograms(attempt: AttemptMade) -> Decimal:
    """What was on the bar. The attempt has a load."""
    return Decimal(str(attempt.load_kg))
