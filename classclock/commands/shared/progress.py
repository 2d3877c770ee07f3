"""How far something is, on standard error of a terminal, once it has taken a second."""

import sys
from collections.abc import Iterator
from contextlib import contextmanager

from classclock.book.under_way import listened_to
from classclock.clock.source import MS, raw_now

_AFTER_NS = 1000 * MS
_ANEW_NS = 100 * MS
"""So often at most it is drawn anew."""
_PAUSE_NS = 300 * MS
"""After so long with nothing under way, a question maybe, the second begins anew."""


@contextmanager
def progress_shown() -> Iterator[None]:
    """Show of whatever says how far it is (`under_way.steps`) a bar, which goes with its end."""
    if sys.stderr is None or not sys.stderr.isatty():
        yield
        return
    bar = _Bar()
    try:
        with listened_to(bar.told):
            yield
    finally:
        bar.hide()


class _Bar:
    """There only while something is under way: else what is said has the terminal for itself."""

    def __init__(self) -> None:
        self._begun = self._drawn = raw_now()
        self._ended: int | None = None
        """When the last thing was done; None while one is under way."""
        self._words = ""
        self._shown: _Shown | None = None

    def told(self, words: str, done: int, of: int) -> None:
        """Draw it, once a second has gone by."""
        now = raw_now()
        if self._ended is not None and now - self._ended > _PAUSE_NS:
            self._begun = now
        self._ended = None
        if done >= of:
            self._ended = now
            self.hide()
        elif now - self._begun >= _AFTER_NS and (
            words != self._words or now - self._drawn >= _ANEW_NS
        ):
            self._words, self._drawn = words, now
            self._shown = self._shown or _Shown()
            self._shown.draw(words, done, of)

    def hide(self) -> None:
        self._words = ""
        if self._shown is not None:
            self._shown.hide()


class _Shown:
    """Rich's bar; loaded only for what takes its time."""

    def __init__(self) -> None:
        from rich.console import Console  # noqa: PLC0415  as above
        from rich.progress import Progress  # noqa: PLC0415  as above

        self._bar = Progress(
            console=Console(stderr=True),
            transient=True,
            # Drawn when told: a thread of its own would go on through a question.
            auto_refresh=False,
            redirect_stdout=False,
            redirect_stderr=False,
        )
        self._task = self._bar.add_task("")

    def draw(self, words: str, done: int, of: int) -> None:
        self._bar.update(self._task, description=words, completed=done, total=of)
        self._bar.start()
        self._bar.refresh()

    def hide(self) -> None:
        self._bar.stop()
