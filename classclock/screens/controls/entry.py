"""A line to type into. While it has the focus every key is its own, but for those that leave."""

from textual import events

from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.units.printable import can_be_shown

LONGEST = 200
"""Signs; a name or a note of a line."""


class Entry(Painted, can_focus=True):
    """Keeps what is typed. `enter` gives it to `entered`, escape calls `left`."""

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self.text = ""

    @property
    def takes_keys(self) -> bool:
        """Whether keys are its own now; the focus itself comes and goes a moment later."""
        return bool(self.display)

    def entered(self) -> None:
        """Enter was struck."""
        raise NotImplementedError

    def left(self) -> None:
        """Escape was struck."""
        raise NotImplementedError

    def on_key(self, event: events.Key) -> None:
        if not self.takes_keys or event.key in ("ctrl+q", "ctrl+c"):
            return
        event.stop()
        event.prevent_default()
        if event.key == "enter":
            self.entered()
        elif event.key == "escape":
            self.left()
        elif event.key == "backspace":
            self.text = self.text[:-1]
        elif event.key == "ctrl+u":
            self.text = ""
        elif event.character is not None and event.is_printable:
            self._take(event.character)
        self.typed()
        self.repaint()

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        self._take(" ".join(event.text.split()))
        self.typed()
        self.repaint()

    def typed(self) -> None:
        """Any key was struck."""

    def _take(self, signs: str) -> None:
        if can_be_shown(signs):
            self.text = (self.text + signs)[:LONGEST]
