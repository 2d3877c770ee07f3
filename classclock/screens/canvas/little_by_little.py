"""Work for when nobody waits, in small pieces, so that a key waits for none but one of them."""

from collections.abc import Callable, Iterator

from textual.timer import Timer
from textual.widget import Widget

_BETWEEN = 0.03
"""Seconds between two pieces."""


class LittleByLittle:
    def __init__(self, widget: Widget) -> None:
        self._widget = widget
        self._pieces: Iterator[Callable[[], object]] = iter(())
        self._timer: Timer | None = None

    def begin(self, pieces: Iterator[Callable[[], object]]) -> None:
        """Do these, one after the other; what is left of those before is left."""
        self._pieces = pieces
        self._stop()
        self._timer = self._widget.set_interval(_BETWEEN, self._do_next)

    def _do_next(self) -> None:
        piece = next(self._pieces, None)
        if piece is None:
            self._stop()
        else:
            piece()

    def _stop(self) -> None:
        if self._timer is not None:
            self._timer.stop()
