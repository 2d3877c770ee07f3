"""The keys of pages of scores: they turn by themselves until one of these has come."""

from collections.abc import Callable, Hashable

from classclock.clock.source import TimeSource, stamp_now
from classclock.live.live_class import Outcome
from classclock.wall.seen.page_turning import PageOn, PageTurns

_STEPS = {"<left>": -1, "<right>": 1, "<space>": 0}


class PageKeys:
    def __init__(
        self,
        source: TimeSource,
        count: Callable[[], int],
        shown: Callable[[], int] | None = None,
    ) -> None:
        """`count` says how many pages there are now, `shown` which one is seen, if not that on."""
        self._source, self._count, self._shown = source, count, shown
        self._what: Hashable = None
        self._about: Hashable = None
        self._turns = PageTurns()

    def page(self, what: Hashable, about: Hashable = None) -> PageOn:
        """Which page of this is on; something else begins anew with its first.

        So it does where it is about something else now; but what a key has stopped stays so.
        """
        real = self._real()
        if what != self._what:
            self._turns = PageTurns(since=real)
        elif about != self._about:
            self._turns = self._turns.anew(real)
        self._what, self._about = what, about
        return self._turns.on(real)

    @property
    def turns(self) -> PageTurns:
        """Which page was on at which moment of real time, and whether it stays."""
        return self._turns

    def press(self, sign: str) -> Outcome | None:
        """What came of a sign; None where it is none of these, or there is nothing to turn."""
        count = self._count()
        if sign not in _STEPS or count < 2:
            return None
        on = self._turns.on(self._real()).number
        self._turns = self._turns.turned(_STEPS[sign], self._shown() if self._shown else on, count)
        return Outcome()

    def _real(self) -> int:
        return self._source.stroke_ms(stamp_now())
