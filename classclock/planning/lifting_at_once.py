"""Whether the club's bars and plates do for all who share bars and lift at the same time."""

from collections.abc import Iterator, Sequence
from decimal import Decimal
from itertools import islice

from classclock.planning.staging import heat_sizes
from classclock.strength.plate_change import shared_loadings
from classclock.strength.together import go_together
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

Loads = Sequence[Load | None]
"""Of each set of one lifter; None is not known."""
_OnABar = tuple[Bar, Load] | None
"""A bar, and what it weighs with its plates; None where that isn't known."""


def fit_at_once(groups: Sequence[Sequence[Loads]], equipment: Equipment, heats: int) -> bool:
    """Whether it does for all groups of each heat, set by set and turn by turn.

    A group whose loads no bar makes is left out: nothing is known of its plates.
    """
    rest = iter([_sets_of(group, equipment) for group in groups])
    each_heat = [list(islice(rest, size)) for size in heat_sizes(len(groups), heats)]
    return all(go_together(moment, equipment) for heat in each_heat for moment in _moments(heat))


def can_never_fit(lifters: Sequence[Loads], equipment: Equipment, turns: int) -> bool:
    """Whether some set asks for more than all plates of the club, loaded so many times in turn."""
    heaviest_bar = max(bar.weight.kg for bar in equipment.bars)
    there = sum((2 * plate.kg * pairs for plate, pairs in equipment.pairs), Decimal(0))
    sets = max(map(len, lifters), default=0)
    return any(
        sum(_plates(loads, number, heaviest_bar) for loads in lifters) > there * turns
        for number in range(sets)
    )


def _plates(loads: Loads, number: int, bar: Decimal) -> Decimal:
    """What the plates of a set weigh at the least."""
    load = loads[min(number, len(loads) - 1)] if loads else None
    return max(Decimal(0), load.kg - bar) if load is not None else Decimal(0)


def _sets_of(group: Sequence[Loads], equipment: Equipment) -> list[list[_OnABar]]:
    """Set by set and turn by turn what is on the group's bar."""
    made = [loads for loads in shared_loadings(group, equipment) or () if loads]
    sets = max(map(len, made), default=0)
    turns = ([loads[min(number, len(loads) - 1)] for loads in made] for number in range(sets))
    return [[(one.bar, one.total) if one is not None else None for one in turn] for turn in turns]


def _moments(groups: Sequence[list[list[_OnABar]]]) -> Iterator[list[tuple[Bar, Load]]]:
    """What is on all bars at once: everybody's first turn of a set, then everybody's second."""
    for number in range(max(map(len, groups), default=0)):
        at_work = [sets[min(number, len(sets) - 1)] for sets in groups if sets]
        for turn in range(max(map(len, at_work), default=0)):
            loaded = (each[turn % len(each)] for each in at_work if each)
            yield [one for one in loaded if one is not None]
