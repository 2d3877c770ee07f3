"""Pages that turn by themselves until a key has turned or stopped them. Pure.

What moves by itself must let itself be stopped (WCAG 2.2, 2.2.2: Pause, Stop, Hide).
"""

from msgspec import Struct

EVERY = 8_000
"""Milliseconds of real time for one page."""


class PageOn(Struct, frozen=True):
    """Which page is on, from 0."""

    number: int = 0
    """Counted on beyond the last, or back: how many there are may change with the window."""
    by_hand: bool = False
    """A key has turned or stopped it, and it stays."""
    among: int = 0
    """Of how many pages that was; 0: nobody said."""

    def of(self, count: int) -> int:
        """Which of so many it is: after the last comes the first.

        One that stays among fewer or more is the one that is as far on among these: in a window
        of another size the same scores take another number of pages.
        """
        if self.among in (0, count):
            return self.number % count
        return self.number % self.among * count // self.among


class PageTurns(Struct, frozen=True):
    """Every moment is in milliseconds of real time."""

    page: PageOn = PageOn()
    """As it was at `since`."""
    since: int = 0
    stopped: bool = False

    def on(self, real: int) -> PageOn:
        """The page at this moment, not before `since`."""
        if self.stopped:
            return self.page
        return PageOn(self.page.number + (real - self.since) // EVERY)

    def turned(self, by: int, shown: int, among: int = 0) -> "PageTurns":
        """So many pages on from the one that is shown among so many, or back.

        From now on none turns by itself.
        """
        return PageTurns(PageOn(shown + by, by_hand=True, among=among), stopped=True)

    def anew(self, real: int) -> "PageTurns":
        """From the first page again; stopped if it was."""
        return PageTurns(PageOn(), real, self.stopped)
