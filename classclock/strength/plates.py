"""What pairs of plates can add up to, and with how few plates: exact, whatever the plates.

Weights are whole parts of a kilogram, so small that both a gram and a thousandth of a pound are a
whole number of them. A weight here is always that of both sides together.
"""

from collections.abc import Iterator, Sequence
from decimal import ROUND_CEILING, ROUND_FLOOR
from functools import lru_cache
from math import gcd

from classclock.units.bars_and_plates import Pairs
from classclock.units.loads import Load

PARTS_PER_KG = 10**11


def parts_below(load: Load) -> int:
    """The load in whole parts, rounded down: exact for all that has three decimals or fewer."""
    return int((load.kg * PARTS_PER_KG).to_integral_value(ROUND_FLOOR))


def parts_above(load: Load) -> int:
    """The load in whole parts, rounded up."""
    return int((load.kg * PARTS_PER_KG).to_integral_value(ROUND_CEILING))


class UnitSums:
    """The sums of plates that share a unit, as sets of bits: bit n says that n steps can be made.

    For each number of pairs there is such a set, and for each kind of plate the sets as they are
    without the larger ones; so the fewest plates, the larger first, can be read off backwards.
    """

    def __init__(self, pairs: Sequence[tuple[int, int]]) -> None:
        self._step = gcd(*(weight for weight, _ in pairs)) or 1
        self._kinds = sorted((weight // self._step, count) for weight, count in pairs)
        sums = [1]
        self._without_larger = [tuple(sums)]
        for weight, count in self._kinds:
            for _ in range(count):
                sums.append(0)
                for used in range(len(sums) - 1, 0, -1):
                    sums[used] |= sums[used - 1] << weight
            self._without_larger.append(tuple(sums))
        self._any = 0
        for made in sums:
            self._any |= made

    def all(self) -> Iterator[int]:
        """Every sum, the smallest first."""
        left = self._any
        while left:
            lowest = left & -left
            yield (lowest.bit_length() - 1) * self._step
            left ^= lowest

    def at_most(self, weight: int) -> int | None:
        """The largest sum that isn't above the weight."""
        if weight < 0:
            return None
        steps = min(weight // self._step, self._any.bit_length() - 1)
        within = self._any & ((2 << steps) - 1)
        return (within.bit_length() - 1) * self._step

    def at_least(self, weight: int) -> int | None:
        """The smallest sum that isn't below the weight; None where all are."""
        steps = max(0, -(-weight // self._step))
        above = self._any >> steps
        return (steps + (above & -above).bit_length() - 1) * self._step if above else None

    def fewest(self, weight: int) -> tuple[tuple[int, int], ...] | None:
        """Pairs that make the weight, as few as can be: (weight of a pair, how many), larger first.

        None where the plates can't make it. Among equally few the larger come first.
        """
        left, off = divmod(weight, self._step)
        if off or left < 0:
            return None
        ways = enumerate(self._without_larger[-1])
        used = next((used for used, made in ways if made >> left & 1), None)
        if used is None:
            return None
        taken: list[tuple[int, int]] = []
        for kind in range(len(self._kinds) - 1, -1, -1):
            weight_of_one, count = self._kinds[kind]
            smaller = self._without_larger[kind]
            for take in range(min(count, used), -1, -1):
                rest = left - take * weight_of_one
                if rest >= 0 and smaller[used - take] >> rest & 1:
                    break
            taken.append((weight_of_one * self._step, take))
            left, used = rest, used - take
        return tuple((one, take) for one, take in taken if take)


class PlateSums:
    """The sums of all the club's plates. Few clubs mix kilograms and pounds; here they may."""

    def __init__(self, pairs: Pairs) -> None:
        self._plates = {2 * parts_below(plate): plate for plate, _ in pairs}
        by_unit: dict[str, list[tuple[int, int]]] = {"kg": [], "lb": []}
        for plate, count in pairs:
            by_unit[plate.unit].append((2 * parts_below(plate), count))
        # The kind with fewer plates is gone through sum by sum, the other is looked up.
        few, many = sorted(by_unit.values(), key=lambda kinds: sum(count for _, count in kinds))
        self._many = UnitSums(many)
        self._few = UnitSums(few)
        self._few_sums = tuple(self._few.all())

    def at_most(self, weight: int) -> int | None:
        """The largest sum that isn't above the weight; None where even no plate is."""
        found = (
            few + rest
            for few in self._few_sums
            if few <= weight and (rest := self._many.at_most(weight - few)) is not None
        )
        return max(found, default=None)

    def at_least(self, weight: int) -> int | None:
        """The smallest sum that isn't below the weight; None where all are."""
        found = (
            few + rest
            for few in self._few_sums
            if (rest := self._many.at_least(weight - few)) is not None
        )
        return min(found, default=None)

    def fewest(self, weight: int) -> tuple[Load, ...] | None:
        """The plates of one side, fewest first of all, then the larger; None: can't be made."""
        # No sum of kilograms is one of pounds too, as long as plates have three decimals at most: a
        # thousandth of a pound has eight more. So a weight is parted between both in one way only.
        for few in self._few_sums:
            with_many = self._many.fewest(weight - few)
            if with_many is not None:
                both = (*with_many, *(self._few.fewest(few) or ()))
                side = sorted((one for one, count in both for _ in range(count)), reverse=True)
                return tuple(self._plates[one] for one in side)
        return None


@lru_cache(maxsize=64)
def plate_sums(pairs: Pairs) -> PlateSums:
    """The sums of these pairs, worked out once."""
    return PlateSums(pairs)
