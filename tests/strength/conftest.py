"""Loads as they are written, and the equipment of the worked examples."""

from collections.abc import Callable, Mapping
from decimal import Decimal

import pytest

from classclock.units.bars_and_plates import Bar, Equipment
from classclock.units.loads import Load, parse_load

AsLoad = Callable[[str], Load]
Club = Callable[..., Equipment]


@pytest.fixture(scope="session")
def club() -> Club:
    """A club with these pairs, `{"20": 1}`, and these bars by weight."""

    def make(
        pairs: Mapping[str, int],
        bars: tuple[str, ...] = ("20 kg",),
        collar: str | None = None,
        count: int = 20,
    ) -> Equipment:
        return Equipment(
            bars=tuple(Bar(weight, parse_load(weight, "kg"), count) for weight in bars),
            pairs=tuple((parse_load(plate, "kg"), count) for plate, count in pairs.items()),
            collar=parse_load(collar, "kg") if collar else None,
            dumbbells=tuple(Load(Decimal(n), "kg") for n in (5, 8, 10, 12)),
            kettlebells=tuple(Load(Decimal(n), "kg") for n in (8, 12, 16)),
        )

    return make


@pytest.fixture(scope="session")
def depot(club: Club) -> Equipment:
    """The set of the worked examples: 20 x1, 15 x2, 10, 5, 2.5, 1.25 x2 pairs, bars 20 and 15."""
    pairs = {"20": 1, "15": 2, "10": 1, "5": 1, "2.5": 1, "1.25": 2}
    return club(pairs, bars=("20 kg", "15 kg"))
