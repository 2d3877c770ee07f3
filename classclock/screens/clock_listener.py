"""What the clock engine says, handed on: to the loudspeaker, and to the screen."""

from collections.abc import Callable
from dataclasses import dataclass

from classclock.clock.class_clock import ClassClock
from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.engine import SoundAhead
from classclock.clock.timeline import Reading
from classclock.sound.loudspeaker import Speaker


@dataclass(frozen=True, slots=True)
class ClockListener:
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
            self.speaker.schedule(name, sound.cue.kind, self.clock.raw(sound.moment))

    def on_silence(self) -> None:
        self.speaker.cancel_all()

    def on_over(self) -> None:
        self.over()
