"""A new size of the window waits for the digits that are about to change.

Laying out and painting a full wall takes some 60 ms, as measured with 26 lanes: begun just before a
second, it would hold up the digits while their sound is on its way.
"""

from collections.abc import Callable

from textual.events import Resize

_LAYING_OUT = 0.12
"""Seconds, with a margin for slower machines."""
_PAINTED = 0.03
"""Seconds after which changed digits are out on the terminal."""


class HeldResize:
    def __init__(self, until_change: Callable[[], float]) -> None:
        """`until_change` tells the real seconds until the clock's digits change."""
        self._until_change = until_change
        self._held: Resize | None = None

    def wait(self, event: Resize) -> float:
        """How many seconds this one has to wait; 0 if it may go on. None waits twice."""
        soon = self._until_change()
        if event is self._held or soon > _LAYING_OUT:
            return 0
        self._held = event
        return soon + _PAINTED
