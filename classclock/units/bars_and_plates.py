"""What a club has to lift: bars, plates in pairs, collars, dumbbells and kettlebells."""

from msgspec import Struct

from classclock.units.loads import Load

Pairs = tuple[tuple[Load, int], ...]
"""Plates, and how many pairs there are of each."""


class Bar(Struct, frozen=True):
    name: str
    weight: Load
    count: int = 1
    """How many the club has of it."""


class Equipment(Struct, frozen=True):
    bars: tuple[Bar, ...]
    pairs: Pairs
    collar: Load | None = None
    """What one collar weighs; None where collars aren't counted. An empty bar wears none."""
    dumbbells: tuple[Load, ...] = ()
    kettlebells: tuple[Load, ...] = ()

    def bar_named(self, name: str) -> Bar:
        """The bar of this name, whatever its case.

        Raises:
            LookupError: there is none; names those there are.
        """
        for bar in self.bars:
            if bar.name.casefold() == name.strip().casefold():
                return bar
        known = ", ".join(bar.name for bar in self.bars)
        raise LookupError(f'no bar is called "{name}": the club has {known}')

    @property
    def lightest_bar(self) -> Bar:
        return min(self.bars, key=lambda bar: bar.weight.kg)
