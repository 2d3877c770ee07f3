"""What the clock engine says, handed on: to the loudspeaker, and to the screen."""

from collections.abc import Callable

from msgspec import Struct

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.engine import SoundAhead
from classclock.clock.source import MS
from classclock.clock.timeline import Reading
from classclock.live.session import Session
from classclock.plan.model import is_piece
from classclock.screens.live.class_display import ClassDisplay
from classclock.screens.live.work_in_thread import WorkInThread
from classclock.wall.cue_words import skipped_words, word_of
from classclock.wall.notices.class_notices import ClassNotices

PAINTING = 20 * MS
"""Nanoseconds until changed digits are out on the terminal, as measured: a sound waits as long,
since one that comes before its picture is noticed sooner than one after it (ITU-R BT.1359-1)."""


class ClockEvents(Struct, frozen=True):
    """Listens to the engine."""

    session: Session
    notices: ClassNotices
    display: ClassDisplay
    saving: WorkInThread[bool]
    show_later: Callable[[], object]
    """Shows the whole class, once what was shown before is painted."""

    def on_tick(self, _: Reading) -> None:
        """The digits first, together with their sound; what takes longer when they are painted."""
        self.display.views.show_digits()
        self.show_later()

    def on_cues(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        self.display.cue(word_of(cues))
        self.notices.aside(skipped_words(cues))
        self.show_later()

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None:
        clock, speaker = self.session.live.clock, self.session.speaker
        for sound in sounds:
            name = f"{sound.cue.kind} {sound.moment}"
            speaker.schedule(name, sound.cue.kind, clock.raw(sound.moment) + PAINTING)

    def on_silence(self) -> None:
        self.session.speaker.cancel_all()

    def on_over(self) -> None:
        if is_piece(self.session.live.record.segment):
            self.saving.ask()
        self.show_later()
