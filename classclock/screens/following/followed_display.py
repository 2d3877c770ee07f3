"""What is seen of a class that is followed, and what goes on beside it: its clock, what is read."""

import asyncio
from collections.abc import Callable

from classclock.clock.cue_track import CueHeard, CueSkipped
from classclock.clock.engine import ClockEngine, SoundAhead
from classclock.clock.source import stamp_now
from classclock.clock.timeline import Reading
from classclock.following.follower import Followed
from classclock.screens.canvas.look import Look
from classclock.screens.live.class_views import ClassViews
from classclock.screens.live.work_in_thread import WorkInThread
from classclock.wall.cue_words import CueStanding, word_of


class FollowedDisplay:
    """Listens to the engine of its own; no sound comes from here."""

    def __init__(
        self,
        followed: Followed,
        look: Look,
        *,
        show: Callable[[], None],
        show_later: Callable[[], object],
    ) -> None:
        """`show` shows the whole class, `show_later` once what was shown before is painted."""
        self.followed = followed
        self.views = ClassViews(followed.seen, look, followed.guide)
        self.trouble = ""
        """What is wrong with the book, in words."""
        live = followed.seen.live
        self.engine = ClockEngine(live.clock, live.view, self)
        self._show, self._show_later = show, show_later
        self._cue = CueStanding()
        self._readings = 0
        self._ahead = WorkInThread(followed.seen.read_ahead, lambda _: show())
        self._book = WorkInThread(followed.seen.read_book, self._book_read)
        self._tasks: list[asyncio.Task[None]] = []

    async def start(self) -> None:
        """Its views are mounted."""
        await self.views.load()
        self._ahead.ask()
        runs = (self.engine.run(), self._ahead.run(), self._book.run())
        self._tasks = [asyncio.create_task(run) for run in runs]

    def stop(self) -> None:
        for task in self._tasks:
            task.cancel()

    def follow(self) -> None:
        """Something has happened in the class."""
        readings = self.followed.guide.room.readings
        if readings != self._readings:
            self._readings = readings
            if readings:
                self._book.ask()
        self.engine.wake()

    def show(self) -> None:
        """Show the class as it stands now; only what changed is painted."""
        self.views.show(self._cue.word(self._real()))

    def _book_read(self, trouble: str) -> None:
        self.trouble = trouble
        self._show()

    def _real(self) -> int:
        return self.followed.seen.source.stroke_ms(stamp_now())

    # -- what the engine says ------------------------------------------------------------

    def on_tick(self, _: Reading) -> None:
        """The digits first; what takes longer when they are painted."""
        self.views.show_digits()
        self._show_later()

    def on_cues(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        self._cue.come(word_of(cues), self._real())
        self._show_later()

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None:
        """They come from the class itself."""

    def on_silence(self) -> None:
        """As above."""

    def on_over(self) -> None:
        self._show_later()
