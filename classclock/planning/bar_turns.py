"""How many plates change on a bar that these people share, whoever of them does."""

from collections.abc import Sequence
from functools import lru_cache
from itertools import pairwise

from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.plate_change import bars_for, plate_change
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load

_KEPT = 4_096
"""Twenty-six people by twos, each way round, on several bars."""


class BarTurns:
    """Worked out once for each two of them, since a matching asks for all."""

    def __init__(self, loads: Sequence[tuple[Load | None, ...]], equipment: Equipment) -> None:
        """`loads` are those of each one's sets; who has none that is known lifts what is there."""
        self._sets = max(map(len, loads), default=0)
        self._loads = [_known(one, self._sets) for one in loads]
        self._equipment = equipment
        self._bars = [frozenset(bars_for(one, equipment)) if one else None for one in self._loads]
        self._heaviest_first = sorted(equipment.bars, key=lambda bar: -bar.weight.kg)
        self._side = lru_cache(maxsize=_KEPT)(self._loaded)
        self._within = lru_cache(maxsize=_KEPT)(self._within_a_set)
        self._on = lru_cache(maxsize=_KEPT)(self._to_the_next_set)

    def in_order(self, group: tuple[int, ...]) -> int | None:
        """Plates of one side put on or taken off over all sets, in this order of turns.

        The first loading isn't counted: every bar has one. None: no bar makes all their loads.
        """
        lifting = tuple(at for at in group if self._loads[at])
        bar = self._bar(lifting)
        if not lifting:
            return 0
        if bar is None:
            return None
        within = sum(self._within(one, other, bar) for one, other in pairwise(lifting))
        return within + self._on(lifting[-1], lifting[0], bar)

    def _bar(self, lifting: tuple[int, ...]) -> Bar | None:
        """The heaviest that makes the loads of all."""
        every = [bars for at in lifting if (bars := self._bars[at]) is not None]
        return next((bar for bar in self._heaviest_first if all(bar in one for one in every)), None)

    def _loaded(self, one: int, bar: Bar) -> tuple[Loading, ...]:
        made = (load_bar(load, bar, self._equipment).exact for load in self._loads[one])
        return tuple(loading for loading in made if loading is not None)

    def _within_a_set(self, one: int, other: int, bar: Bar) -> int:
        turns = zip(self._side(one, bar), self._side(other, bar), strict=True)
        return sum(plate_change(before, after).plates for before, after in turns)

    def _to_the_next_set(self, last: int, first: int, bar: Bar) -> int:
        turns = zip(self._side(last, bar)[:-1], self._side(first, bar)[1:], strict=True)
        return sum(plate_change(before, after).plates for before, after in turns)


def _known(loads: tuple[Load | None, ...], sets: int) -> tuple[Load, ...]:
    """The load of each set, the last one going on; nothing where one of them isn't known."""
    known = tuple(load for load in loads if load is not None)
    if not known or len(known) < len(loads):
        return ()
    return (*known, *(known[-1],) * (sets - len(known)))
