"""Several bars loaded at once from one stock of plates: all of them, or what is short."""

from collections import Counter
from collections.abc import Iterator, Sequence
from functools import lru_cache, partial
from itertools import count

from msgspec import Struct

from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.plates import PlateSums, parts_below, plate_sums
from classclock.units.bars_and_plates import Bar, Equipment, Pairs
from classclock.units.loads import Load

_MOST_TRIED = 4_000
"""Ways to load a bar that are tried for one sharing-out. Whoever shares plates out by hand gives up
long before; a class of twenty-six on few plates could keep a search busy for minutes."""

PlateCounts = tuple[int, ...]
"""How many pairs of each kind, the largest kind first."""
_Kind = tuple[int, int, PlateSums]
"""What a pair weighs, how many there are, and what the smaller kinds come to."""
_WEIGHTS_KEPT = 64
"""More than there are bars in a class."""


class Together(Struct, frozen=True):
    """Who lifts at the same time, in the order in which they were named."""

    loadings: tuple[Loading | None, ...]
    """None: this one waits, because bars or plates are short."""
    short_pairs: Pairs = ()
    """Pairs that would do, if the club had them too, for all to lift at once."""
    short_bars: tuple[tuple[Bar, int], ...] = ()

    @property
    def enough(self) -> bool:
        return None not in self.loadings


def load_together(wanted: Sequence[tuple[Bar, Load]], equipment: Equipment) -> Together:
    """Load all these bars at once, or as many as go, the first named first.

    Sharing is searched for, and given up where it would take a great many swaps of plates: then
    somebody waits who need not have.

    Raises:
        ValueError: a load that can't be made on its bar even with all the plates.
    """
    alone = [_alone(bar, target, equipment) for bar, target in wanted]
    stock = _Stock(equipment.pairs)
    bars_wanted = Counter(loading.bar for loading in alone)
    short_bars = tuple((b, n - b.count) for b, n in bars_wanted.items() if n > b.count)
    if not short_bars and (all_of_them := stock.shared(alone)) is not None:
        return Together(all_of_them)
    going: list[int] = []
    bars: Counter[Bar] = Counter()
    for place, loading in enumerate(alone):
        if bars[loading.bar] < loading.bar.count and stock.shared(
            [alone[other] for other in (*going, place)]
        ):
            going.append(place)
            bars[loading.bar] += 1
    shared = stock.shared([alone[place] for place in going])
    loadings: list[Loading | None] = [None] * len(alone)
    for place, loading in zip(going, shared or (), strict=True):
        loadings[place] = loading
    return Together(tuple(loadings), stock.short(alone), short_bars)


def go_together(wanted: Sequence[tuple[Bar, Load]], equipment: Equipment) -> bool:
    """Whether bars and plates do for all these at once.

    Raises:
        ValueError: a load that can't be made on its bar even with all the plates.
    """
    bars = Counter(bar for bar, _ in wanted)
    if any(count > bar.count for bar, count in bars.items()):
        return False
    alone = [_alone(bar, target, equipment) for bar, target in wanted]
    return _Stock(equipment.pairs).shared(alone) is not None


def _alone(bar: Bar, target: Load, equipment: Equipment) -> Loading:
    loading = load_bar(target, bar, equipment).exact
    if loading is None:
        raise ValueError(f"{target} can't be made on the {bar.name}: take a neighbour of it")
    return loading


class _Stock:
    """The club's pairs, the largest first."""

    def __init__(self, pairs: Pairs) -> None:
        ordered = sorted(pairs, key=lambda pair: -pair[0].kg)
        self._plates = tuple(plate for plate, _ in ordered)
        self._weights = tuple(2 * parts_below(plate) for plate in self._plates)
        self._counts: PlateCounts = tuple(count for _, count in ordered)
        sums = [plate_sums(tuple(ordered[kind:])) for kind in range(1, len(ordered) + 1)]
        kinds = tuple(zip(self._weights, self._counts, sums, strict=True))
        self._ways = lru_cache(maxsize=_WEIGHTS_KEPT)(partial(_ways, kinds))

    def shared(self, loadings: Sequence[Loading]) -> tuple[Loading, ...] | None:
        """The same loads out of one stock; None where it can't be done."""
        alone = [self._counted(loading) for loading in loadings]
        if _covers(self._counts, [sum(kind) for kind in zip(*alone, strict=True)]):
            return tuple(loadings)
        ways = [self._ways(self._weighed(counts)) for counts in alone]
        # Whoever has the fewest ways chooses first.
        order = sorted(range(len(ways)), key=lambda place: len(ways[place]))
        chosen = _choose([ways[place] for place in order], self._counts)
        if chosen is None:
            return None
        by_place = dict(zip(order, chosen, strict=True))
        return tuple(
            Loading(loading.bar, self._side(by_place[place]), loading.collar)
            for place, loading in enumerate(loadings)
        )

    def short(self, loadings: Sequence[Loading]) -> Pairs:
        """What is missing for everybody to load as they would alone."""
        alone = [self._counted(loading) for loading in loadings]
        needed = [sum(kind) for kind in zip(*alone, strict=True)]
        missing = zip(self._plates, needed, self._counts, strict=True)
        return tuple((plate, want - have) for plate, want, have in missing if want > have)

    def _counted(self, loading: Loading) -> PlateCounts:
        counted = Counter(loading.plates)
        return tuple(counted[plate] for plate in self._plates)

    def _weighed(self, counts: PlateCounts) -> int:
        return sum(count * weight for count, weight in zip(counts, self._weights, strict=True))

    def _side(self, counts: PlateCounts) -> tuple[Load, ...]:
        kinds = zip(self._plates, counts, strict=True)
        return tuple(plate for plate, count in kinds for _ in range(count))


def _ways(kinds: Sequence[_Kind], weight: int) -> tuple[PlateCounts, ...]:
    """Every way to make the weight, fewest plates first."""
    return tuple(sorted(_every_way(kinds, weight), key=sum))


def _every_way(kinds: Sequence[_Kind], weight: int) -> Iterator[PlateCounts]:
    if not kinds:
        if weight == 0:
            yield ()
        return
    (each, have, smaller), *others = kinds
    for take in range(min(have, weight // each), -1, -1):
        rest = weight - take * each
        if smaller.at_most(rest) == rest:
            for way in _every_way(others, rest):
                yield (take, *way)


def _choose(
    ways: Sequence[Sequence[PlateCounts]], stock: PlateCounts
) -> tuple[PlateCounts, ...] | None:
    """One way for each bar so that the stock covers them all; None where none is found."""
    # What the bars from each place on use of each kind at the very least.
    least = [(0,) * len(stock)]
    for options in reversed(ways):
        fewest = (min(kind) for kind in zip(*options, strict=True))
        least.append(tuple(a + b for a, b in zip(least[-1], fewest, strict=True)))
    least.reverse()
    tried = count()

    @lru_cache(maxsize=_MOST_TRIED)
    def choose(place: int, left: PlateCounts) -> tuple[PlateCounts, ...] | None:
        if place == len(ways):
            return ()
        for way in ways[place]:
            if next(tried) > _MOST_TRIED:
                return None
            rest = tuple(have - take for have, take in zip(left, way, strict=True))
            if _covers(rest, least[place + 1]) and (others := choose(place + 1, rest)) is not None:
                return (way, *others)
        return None

    return choose(0, stock)


def _covers(stock: PlateCounts, needed: Sequence[int]) -> bool:
    return all(have >= need for have, need in zip(stock, needed, strict=False))
