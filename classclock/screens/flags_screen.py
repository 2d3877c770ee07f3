"""Before a class: flags on loads are read and acknowledged, while the TV can still be muted."""

from textual import events
from textual.app import ComposeResult
from textual.screen import Screen

from classclock.flagged import open_flags, to_come
from classclock.live import LiveClass
from classclock.screens.flags_view import FlagsView
from classclock.screens.key_sign import signs_of
from classclock.screens.look import Look


class FlagsScreen(Screen[bool]):
    """Ends with whether to go on to the class; False leaves it."""

    def __init__(self, look: Look, live: LiveClass, *, mirrored: bool) -> None:
        super().__init__()
        self._live = live
        self.view = FlagsView(look, covered=mirrored)

    def compose(self) -> ComposeResult:
        yield self.view

    def on_mount(self) -> None:
        self._show()

    def _show(self) -> None:
        flags = open_flags(self._live, to_come(self._live))
        self.view.show(flags)
        if not flags:
            self.dismiss(result=True)

    def on_key(self, event: events.Key) -> None:
        event.stop()
        event.prevent_default()
        if event.key in ("ctrl+q", "ctrl+c"):
            self.dismiss(result=False)
            return
        for sign in signs_of(event.key, event.character):
            if sign == "<escape>":
                self.dismiss(result=True)
                return
            if sign == "<enter>":
                self._enter()

    def _enter(self) -> None:
        if self.view.covered:
            self.view.uncover()
            return
        for flag in self.view.seen:
            self._live.acknowledge(flag.person_id, flag.segment, flag.text)
        self._show()
