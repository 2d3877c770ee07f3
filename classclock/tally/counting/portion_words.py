"""How much of a piece a lane does where it was agreed to be less: the amounts, and in words."""

from collections.abc import Iterator, Sequence

from msgspec import UnsetType

from classclock.plan.amounts import amount_of, names_amount
from classclock.plan.model import Segment
from classclock.plan.station import Amount
from classclock.tally.lanes import Choice, Lane, Portion


def share_of(portion: Portion | UnsetType, amount: int) -> int:
    """What is left of an amount: whole, and never more than was agreed."""
    return amount * portion.percent // 100 if portion else amount


def portion_in(segment: Segment, does: Lane | Choice) -> tuple[str, ...]:
    """How much of a piece a lane does, or somebody chose to, in words; none where it is all."""
    return (portion_words(segment, does.options, does.portion),) if does.portion else ()


def portion_words(segment: Segment, options: Sequence[int], portion: Portion) -> str:
    """`about half: 4 rounds`, `about half: 3+4+6 a round`, `about half: 9-6-3`.

    `options` are the numbers of those in use, station by station: the amounts are theirs.
    """
    amounts = "" if portion.percent == 100 else _amounts(segment, options, portion)
    return f"{portion.name}: {amounts}" if amounts else portion.name


def _amounts(segment: Segment, options: Sequence[int], portion: Portion) -> str:
    """Empty where no few numbers say it: the rounds climb, or the stations differ in a scheme."""
    amounts = list(_chosen(segment, options))
    scheme = segment.counting.scheme
    if scheme is not None:
        alike = not any(map(names_amount, amounts))
        return "-".join(str(share_of(portion, reps)) for reps in scheme) if alike else ""
    if any(amount.climb for amount in amounts):
        return ""
    words = "+".join(_written(portion, amount) for amount in amounts if names_amount(amount))
    return f"{words} a round" if words and segment.counting.rounds != 1 else words


def _chosen(segment: Segment, options: Sequence[int]) -> Iterator[Amount]:
    for place, station in enumerate(segment.station):
        number = options[place] if place < len(options) else 0
        yield amount_of(station, station.options[number - 1] if number else None)


def _written(portion: Portion, amount: Amount) -> str:
    units = {"": amount.reps, " m": amount.metres, " cal": amount.calories, " s": amount.seconds}
    unit, number = next((unit, one) for unit, one in units.items() if one is not None)
    return f"{share_of(portion, number)}{unit}"
