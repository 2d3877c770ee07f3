"""The keys of pages of scores: they turn by themselves until one of these has come."""

from collections.abc import Callable, Hashable

from classclock.clock.source import TimeSource, stamp_now
from classclock.live.live_class import Outcome
from classclock.screens.live.page_turning import PageOn, PageTurns

_STEPS = {"<left>": -1, "<right>": 1, "<space>": 0}


class PageKeys:
    def __init__(self, source: TimeSource, count: Callable[[], int]) -> None:
        """`count` says how many pages there are now."""
        self._source, self._count = source, count
        self._what: Hashable = None
        self._turns = PageTurns()

    def page(self, what: Hashable) -> PageOn:
        """Which page of this is on; something else begins anew with its first."""
        real = self._real()
        if what != self._what:
            self._what, self._turns = what, PageTurns(since=real)
        return self._turns.on(real)

    def press(self, sign: str) -> Outcome | None:
        """What came of a sign; None where it is none of these, or there is nothing to turn."""
        if sign not in _STEPS or self._count() < 2:
            return None
        self._turns = self._turns.turned(_STEPS[sign], self._real())
        return Outcome()

    def _real(self) -> int:
        return self._source.stroke_ms(stamp_now())
