"""Names in a sheet that may be slips: near to one in the book, or to one that stands there more."""

from collections import Counter
from collections.abc import Iterable
from functools import cached_property

from classclock.units.alike import NearNames
from classclock.units.names import name_key

_MOST = 500
"""In a sheet of more names they are held against the book alone: it would take too long."""
_SHOWN = 3


class LikelyNames:
    """All names of one kind: of people, or of benchmarks. First each is `met`, then asked about."""

    def __init__(self, known: Iterable[str]) -> None:
        """`known`: those in the book."""
        self._known = {name_key(name): name for name in known}
        self._here: Counter[str] = Counter()
        self._near: dict[str, tuple[str, ...]] = {}

    def knows(self, written: str) -> bool:
        """Whether the book has it."""
        return name_key(written) in self._known

    def met(self, written: str, times: int) -> None:
        self._here[written] += times

    def near(self, written: str) -> tuple[str, ...]:
        """What may be meant by a name that the book doesn't know; nothing by one that it does."""
        if self.knows(written):
            return ()
        if written not in self._near:
            found = (one for one in self._all.of(written, 9) if self._likelier(one, written))
            self._near[written] = tuple(found)[:_SHOWN]
        return self._near[written]

    def _likelier(self, one: str, than: str) -> bool:
        """Whether it stands in the book, or in the sheet more often, or as often but before."""
        if name_key(one) == name_key(than):
            return False
        if name_key(one) in self._known:
            return True
        times, often = self._here[one], self._here[than]
        return times > often or (times == often and self._places[one] < self._places[than])

    @cached_property
    def _places(self) -> dict[str, int]:
        return {name: place for place, name in enumerate(self._here)}

    @cached_property
    def _all(self) -> NearNames:
        here = self._here if len(self._here) <= _MOST else ()
        return NearNames((*self._known.values(), *here))
