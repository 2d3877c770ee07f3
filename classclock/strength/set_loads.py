"""One set for all who lift together: a bar for each, from one stock of plates."""

from collections.abc import Iterator, Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.plate_change import shared_loadings
from classclock.strength.together import Together, load_together
from classclock.strength.working_loads import bar_for
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, shown

Partners = tuple[tuple[int, ...], ...]
"""Who share a bar, by their places in a list, in the order of their turns."""


class SetLoads(Struct, frozen=True):
    """In the order in which the athletes were given."""

    loadings: tuple[Loading | None, ...]
    """None where nobody planned a load, or it can't be made with a bar."""
    waits: tuple[bool, ...]
    """Who can't load while the others do."""
    short: str
    """What is short, in words; empty where there is enough."""


def own_loading(loads: Sequence[Load | None], number: int, equipment: Equipment) -> Loading | None:
    """The plates of one athlete's set `number` (from 1); one bar serves all their sets.

    The last set goes on beyond its end. None: no load is planned, or no bar makes it.
    """
    load = loads[min(number, len(loads)) - 1] if loads else None
    if load is None:
        return None
    bar = bar_for([one for one in loads if one is not None], equipment)
    return load_bar(load, bar, equipment).exact


def set_loads(
    athletes: Sequence[tuple[Load | None, ...]],
    number: int,
    equipment: Equipment,
    partners: Partners = (),
) -> SetLoads:
    """Everybody's set `number` (from 1), loaded at the same time.

    `partners` share a bar, by their places in the list: they load it one after the other.
    """
    return _set_loads(tuple(athletes), number, equipment, partners)


@lru_cache(maxsize=64)
def _set_loads(
    athletes: tuple[tuple[Load | None, ...], ...],
    number: int,
    equipment: Equipment,
    partners: Partners,
) -> SetLoads:
    loadings = [own_loading(loads, number, equipment) for loads in athletes]
    for group in partners:
        made = shared_loadings([athletes[at] for at in group], equipment)
        for at, sets in zip(group, made or (), strict=False):
            loadings[at] = sets[min(number, len(sets)) - 1] if sets else None
    alone = tuple(loadings)
    waits = [False] * len(alone)
    short = ""
    for lifting in _turns(alone, partners):
        together = load_together([(one.bar, one.total) for _, one in lifting], equipment)
        short = short or _short_words(together)
        for (at, own), loaded in zip(lifting, together.loadings, strict=True):
            waits[at] = loaded is None
            loadings[at] = loaded or own
    return SetLoads(tuple(loadings), tuple(waits), short)


def _turns(
    alone: Sequence[Loading | None], partners: Partners
) -> Iterator[list[tuple[int, Loading]]]:
    """Who lifts at once: everybody, and of each bar that is shared one after the other."""
    later = {at: turn for group in partners for turn, at in enumerate(group)}
    for turn in range(max((len(group) for group in partners), default=1)):
        yield [
            (at, loading)
            for at, loading in enumerate(alone)
            if loading is not None and later.get(at, turn) == turn
        ]


def _short_words(together: Together) -> str:
    """`not all at once: 2 pairs of 20 kg, 1 of the 15 kg bar short`."""
    if together.enough:
        return ""
    parts = [
        f"{count} pair{'s' if count > 1 else ''} of {shown(plate)}"
        for plate, count in together.short_pairs
    ]
    parts += [f"{count} of the {bar.name}" for bar, count in together.short_bars]
    missing = ", ".join(parts) or "plates"
    return f"not all at once: {missing} short"
