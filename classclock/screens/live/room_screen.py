"""A screen with the room's wall on it, whoever runs the class: its layers, its sizes."""

from functools import partial
from pathlib import Path

from textual import events
from textual.screen import Screen

from classclock.screens.canvas.ground import Ground
from classclock.screens.canvas.held_resize import HeldResize
from classclock.screens.canvas.look import Look
from classclock.screens.live.overlays.too_small import TooSmall, is_too_small


class RoomScreen(Ground, Screen[None]):
    # As a path it would have all style sheets read again, before the first paint.
    DEFAULT_CSS = Path(__file__).with_suffix(".tcss").read_text("utf-8")
    AUTO_FOCUS = ""

    def __init__(self, look: Look) -> None:
        super().__init__()
        self.look = look
        self.too_small = TooSmall(look)
        self._resize = HeldResize(self.until_change)

    def until_change(self) -> float:
        """Real seconds until the clock's digits change; infinite where none does."""
        raise NotImplementedError

    async def on_event(self, event: events.Event) -> None:
        if isinstance(event, events.Resize) and (wait := self._resize.wait(event)):
            self.set_timer(wait, partial(self.post_message, event))
        else:
            await super().on_event(event)

    def on_resize(self, event: events.Resize) -> None:
        self.too_small.display = is_too_small(*event.size)
