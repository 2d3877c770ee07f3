"""A line to type into. While it has the focus every key is its own, but for those that leave."""

from dataclasses import dataclass

from textual import events

from classclock.screens.canvas.look import Look
from classclock.screens.canvas.painted import Painted
from classclock.screens.controls.key_sign import signs_of
from classclock.screens.controls.meant import Meant
from classclock.screens.controls.typed_line import TypedLine
from classclock.units.printable import can_be_shown

LONGEST = 200
"""Signs; a name or a note of a line."""


def unread_by_the_room(text: str, *, mirrored: bool) -> str:
    """What stands for a line that isn't for the room: dots where it sees this screen."""
    return "•" * len(text) if mirrored else text


class LineEntry(Painted, can_focus=True):
    """Keeps what is typed. `enter` gives it to `entered`, escape calls `left`."""

    @dataclass
    class PasteRefused(Meant):
        """What was pasted holds a sign that can't be shown: nothing of it is taken."""

    def __init__(self, look: Look, *, id: str | None = None) -> None:  # noqa: A002  Textual's own name
        super().__init__(look, id=id)
        self._line = TypedLine(longest=LONGEST)

    @property
    def text(self) -> str:
        """What is typed so far; more is typed at its end."""
        return self._line.text

    @text.setter
    def text(self, text: str) -> None:
        self._line = TypedLine.of(text, longest=LONGEST)

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

    def sign(self, sign: str) -> None:
        """Any other key."""
        self._line.sign_at_end(sign)

    def on_key(self, event: events.Key) -> None:
        if not self.takes_keys or event.key in ("ctrl+q", "ctrl+c"):
            return
        event.stop()
        event.prevent_default()
        match _sign_of(event):
            case "<enter>":
                self.entered()
            case "<escape>":
                self.left()
            case sign:
                self.sign(sign)
        self.typed()
        self.repaint()

    def on_paste(self, event: events.Paste) -> None:
        event.stop()
        pasted = " ".join(event.text.split())
        if pasted and not can_be_shown(pasted):
            self.post_message(self.PasteRefused())
        self._line.type(pasted)
        self.typed()
        self.repaint()

    def typed(self) -> None:
        """Any key was struck."""


def _sign_of(event: events.Key) -> str:
    """Alt and a letter types that letter here, as some keyboards have it for names."""
    if event.key.startswith("alt+"):
        return event.character if event.character is not None and event.is_printable else ""
    (sign,) = signs_of(event.key, event.character)
    return sign
