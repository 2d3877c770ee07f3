"""One set for all who lift together: a bar for each, from one stock of plates."""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.together import Together, load_together
from classclock.strength.working_loads import bar_for
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, shown


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
    athletes: Sequence[tuple[Load | None, ...]], number: int, equipment: Equipment
) -> SetLoads:
    """Everybody's set `number` (from 1), loaded at the same time."""
    return _set_loads(tuple(athletes), number, equipment)


@lru_cache(maxsize=64)
def _set_loads(
    athletes: tuple[tuple[Load | None, ...], ...], number: int, equipment: Equipment
) -> SetLoads:
    alone = [own_loading(loads, number, equipment) for loads in athletes]
    lifting = [one for one in alone if one is not None]
    together = load_together([(one.bar, one.total) for one in lifting], equipment)
    shared = iter(together.loadings)
    at_once = [next(shared) if one is not None else None for one in alone]
    waits = tuple(
        own is not None and loaded is None for own, loaded in zip(alone, at_once, strict=True)
    )
    loadings = tuple(loaded or own for loaded, own in zip(at_once, alone, strict=True))
    return SetLoads(loadings, waits, _short_words(together))


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
