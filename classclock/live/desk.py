"""The coach's keys at work on a class: strokes in, what the coach meant carried out.

The screens and a rehearsal both type here, so that they can't come to differ.
"""

from collections.abc import Mapping

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.live_class import LiveClass, Outcome
from classclock.tally import commands as cmd
from classclock.tally.keys.forms import NO_EFFORT
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyState, lapse, pending_shown
from classclock.tally.keys.keys_now import keys_now
from classclock.tally.keys.strokes import DIGITS, Stroke, translate
from classclock.tally.keys.unseen import unseen


class Answer(Struct, frozen=True):
    """What a stroke came to: a notice, an outcome, or something only a screen can do."""

    notice: str = ""
    outcome: Outcome | None = None
    screen: cmd.ScreenCommand | None = None


class Desk:
    """Holds what is pending, and hands commands to the live class."""

    def __init__(self, live: LiveClass, keyboard: Mapping[str, str] | None = None) -> None:
        """`keyboard`: what a key types, and what it shall mean."""
        self.live = live
        self._keyboard = keyboard or {}
        self._state = KeyState()

    @property
    def pending(self) -> str:
        """What has been typed and waits for its letter, as the room may see it."""
        return self._to_the_room(pending_shown(self._state))

    def sign(self, sign: str, real: int, at: int) -> Answer:
        """One key, as the terminal gave it, at these moments of real time and of the class's."""
        return self.stroke(Stroke(translate(sign, self._keyboard), real, at))

    def stroke(self, stroke: Stroke) -> Answer:
        """One stroke of a key."""
        typed = self._state.pending + (stroke.key if stroke.key in DIGITS else "")
        over = self.live.record.closed
        answer = self._stroke(stroke)
        if not over or answer.notice == NO_EFFORT:
            return answer
        return replace(answer, notice=unseen(answer.notice, typed))

    def _stroke(self, stroke: Stroke) -> Answer:
        now = keys_now(self.live.record, self.live.lineup(), stroke.at)
        pressed = press(self._state, stroke, now)
        self._state = pressed.state
        command = pressed.command
        if command is None:
            return Answer(pressed.notice or "")
        if isinstance(command, cmd.ScreenCommand):
            return Answer(pressed.notice or "", screen=command)
        return Answer(pressed.notice or "", outcome=self.live.do(command, stroke.at))

    def lapse(self, real: int) -> str:
        """Drop what has been pending too long by this moment of real time; what to say of it."""
        typed = self._state.pending
        self._state, notice = lapse(self._state, real)
        return self._to_the_room(notice or "", typed)

    def _to_the_room(self, text: str, typed: str | None = None) -> str:
        """As it is but on the last screen, where how hard it was isn't for the room."""
        if not self.live.record.closed:
            return text
        return unseen(text, self._state.pending if typed is None else typed)
