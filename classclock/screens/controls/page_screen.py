"""A screen that is one drawing, before or after a class: it takes one sign after the other."""

from collections.abc import Callable
from typing import TypeVar

from textual import events, work
from textual.app import ComposeResult
from textual.screen import Screen

from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.key_sign import signs_of

Result = TypeVar("Result")
Answer = TypeVar("Answer")


class PageScreen(Screen[Result]):
    """The `view` is painted anew after each key."""

    view: Painted

    def compose(self) -> ComposeResult:
        yield self.view

    def take(self, sign: str) -> bool:
        """Take one sign; whether it left the screen."""
        raise NotImplementedError

    def quit(self) -> None:
        """What ctrl+q and ctrl+c do, that every screen has."""
        self.dismiss(None)

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        if event.key in ("ctrl+q", "ctrl+c"):
            self.quit()
            return
        for sign in signs_of(event.key, event.character):
            if self.take(sign):
                return
        self.view.repaint()

    @work(thread=True, exit_on_error=False)
    def read(self, know: Callable[[Answer], object], *asks: Callable[[], Answer]) -> None:
        """Ask in a thread, one after the other: each answer is known, and painted, as it comes."""
        for ask in asks:
            self.app.call_from_thread(self._known, know, ask())

    def _known(self, know: Callable[[Answer], object], answer: Answer) -> None:
        know(answer)
        self.view.repaint()
