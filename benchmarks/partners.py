"""Partners for a class at its bars: how long the coach waits for the proposal."""

from decimal import Decimal
from statistics import median

from benchmarks.figure import Figure
from classclock.clock.source import MS, raw_now
from classclock.planning.partners import Lifter, propose_partners
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

_TRIES = 9
_SETS = 5
_PLENTY = 30
_FEW = 11


def pairing() -> Figure:
    """26 people and five sets, plates enough for all."""
    return _figure("partners for 26 people", 26, _PLENTY, most=250)


def a_three() -> Figure:
    """25 people: one of 2,300 threes leaves the best pairs."""
    return _figure("partners for 25 people, with a three", 25, _PLENTY, most=500)


def few_plates() -> Figure:
    """26 people and not quite enough plates: swaps are tried until it is given up."""
    return _figure("partners for 26 people, too few plates", 26, _FEW, most=2_000)


def _figure(name: str, people: int, pairs: int, *, most: float) -> Figure:
    equipment = Equipment(
        (Bar("20 kg bar", _kg(20), people),),
        tuple((_kg(plate), pairs) for plate in ("20", "15", "10", "5", "2.5", "1.25")),
    )
    # Loads that lie apart as those of a class do, the same each time.
    lifters = [
        Lifter(
            f"athlete {number}",
            tuple(_kg(40 + Decimal("2.5") * (7 * number % 31 + 2 * done)) for done in range(_SETS)),
            newcomer=number % 6 == 0,
        )
        for number in range(people)
    ]
    took = []
    for _ in range(_TRIES):
        before = raw_now()
        proposed = propose_partners(lifters, equipment)
        took.append((raw_now() - before) / MS)
        assert len(proposed.groups) == people // 2
    return Figure(name, median(took), "ms", most=most)


def _kg(amount: Decimal | int | str) -> Load:
    return Load(Decimal(amount), "kg")
