"""What the clock engine says, handed on: to the loudspeaker, and to the screen."""

from collections.abc import Callable

from msgspec import Struct

from classclock.clock.class_clock import ClassClock
from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.engine import SoundAhead
from classclock.clock.source import MS
from classclock.clock.timeline import Reading
from classclock.sound.loudspeaker import Speaker

PAINTING = 20 * MS
"""Nanoseconds until changed digits are out on the terminal, as measured: a sound waits as long,
since one that comes before its picture is noticed sooner than one after it (ITU-R BT.1359-1)."""


class ClockListener(Struct, frozen=True):
    clock: ClassClock
    speaker: Speaker
    tick: Callable[[], None]
    cues: Callable[[tuple[CueHeard | CueSkipped, ...]], None]
    over: Callable[[], None]

    def on_tick(self, _: Reading) -> None:
        self.tick()

    def on_cues(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        self.cues(cues)

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None:
        for sound in sounds:
            name = f"{sound.cue.kind} {sound.moment}"
            self.speaker.schedule(name, sound.cue.kind, self.clock.raw(sound.moment) + PAINTING)

    def on_silence(self) -> None:
        self.speaker.cancel_all()

    def on_over(self) -> None:
        self.over()
