"""A bar that several people share: which bar serves them all, and what changes on it in between."""

from collections import Counter
from collections.abc import Iterable, Sequence

from msgspec import Struct

from classclock.strength.bar_loading import Loading, load_bar
from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load


class PlateChange(Struct, frozen=True):
    """What is put on and taken off one side of a bar, the largest first.

    Where a plate sits on the sleeve isn't asked: one further in comes off as if it were outermost.
    """

    on: tuple[Load, ...]
    off: tuple[Load, ...]

    @property
    def plates(self) -> int:
        """How many plates of one side are put on or taken off."""
        return len(self.on) + len(self.off)


def plate_change(before: Loading, after: Loading) -> PlateChange:
    """What makes the one loading of the other, both on one bar."""
    had, wanted = Counter(before.plates), Counter(after.plates)
    return PlateChange(_sorted(wanted - had), _sorted(had - wanted))


def _sorted(plates: Counter[Load]) -> tuple[Load, ...]:
    return tuple(sorted(plates.elements(), key=lambda plate: -plate.kg))


def bars_for(loads: Iterable[Load], equipment: Equipment) -> tuple[Bar, ...]:
    """The bars on which each of these loads can be made exactly, the heaviest first."""
    every = tuple(loads)
    heaviest_first = sorted(equipment.bars, key=lambda bar: -bar.weight.kg)
    return tuple(
        bar
        for bar in heaviest_first
        if all(load_bar(load, bar, equipment).exact is not None for load in every)
    )


def shared_bar(lifters: Iterable[Sequence[Load | None]], equipment: Equipment) -> Bar | None:
    """The one bar that these share: the heaviest that makes all their loads; None: none does."""
    known = (load for loads in lifters for load in loads if load is not None)
    return next(iter(bars_for(known, equipment)), None)


def shared_loadings(
    lifters: Sequence[Sequence[Load | None]], equipment: Equipment
) -> tuple[tuple[Loading | None, ...], ...] | None:
    """Each one's sets on the bar that they share.

    None within where no load is known; None in place of it all where no bar of the club does.
    """
    bar = shared_bar(lifters, equipment)
    if bar is None:
        return None
    return tuple(
        tuple(load_bar(load, bar, equipment).exact if load else None for load in loads)
        for loads in lifters
    )
