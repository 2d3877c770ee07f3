"""The keys for the sound: a check before the class, off and on, softer and louder."""

from collections.abc import Callable

from classclock.clock.source import raw_now
from classclock.live.live_class import Outcome
from classclock.sound.loudspeaker import Speaker

_STEP = 10
NS = 1_000_000_000
"""Nanoseconds in a second."""


class SoundKeys:
    """What each of them did; None for a sign that is none of theirs."""

    def __init__(
        self,
        speaker: Speaker,
        volume: int,
        say_later: Callable[[float, str], None],
        now: Callable[[], int] = raw_now,
    ) -> None:
        """`say_later` shows words after so many seconds: a sound check is seen as it is heard."""
        self._speaker = speaker
        self._say_later, self._now = say_later, now
        self._volume = volume
        self.muted = False

    def press(self, sign: str, *, clock_runs: bool) -> Outcome | None:
        match sign:
            case "<f3>" if clock_runs:
                return Outcome("the clock runs: check the sound before the start", refused=True)
            case "<f3>":
                self._check()
                return Outcome("sound check: three short, then go. F5 softer, F6 louder")
            case "<f4>":
                self.muted = not self.muted
                self._speaker.mute(self.muted)
                said = "sound off: F4 turns it on again" if self.muted else "sound on"
                return Outcome(said)
            case "<f5>":
                return self._turn(-_STEP)
            case "<f6>":
                return self._turn(_STEP)
        return None

    def _check(self) -> None:
        cues = self._speaker.check()
        now = self._now()
        for place, cue in enumerate(cues, start=1):
            word = "GO" if cue.kind == "go" else f"beep {place}"
            self._say_later(max(0, cue.due - now) / NS, f"sound check: {word}")

    def _turn(self, by: int) -> Outcome:
        self._volume = max(0, min(100, self._volume + by))
        self._speaker.set_volume(self._volume)
        return Outcome(f"volume {self._volume} of 100")
