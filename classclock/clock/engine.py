"""The engine: it wakes for each change of digit and each cue, and says what it finds.

It computes the time anew on every waking and never adds up ticks, so it can't drift.
"""

import asyncio
import math
from collections.abc import Callable
from contextlib import suppress
from typing import Protocol

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.class_clock import ClassClock
from classclock.clock.cue_track import CueHeard, CueSkipped, CueTrack
from classclock.clock.cues import Cue
from classclock.clock.running import RunningTime
from classclock.clock.timeline import Reading, Timeline

LONGEST_SLEEP = 1.0
"""Real seconds: a suspended laptop's timers stand still, so no wait relies on one for longer."""
AHEAD = 2000
"""Milliseconds before its time at which a cue is handed over to be scheduled as a sound."""


class EngineView(Struct, frozen=True):
    """The segment as it runs, asked for anew at each look."""

    running: RunningTime
    timeline: Timeline
    ends: int | None = None
    """The elapsed time at which it ends before its time, when all are in or by hand."""

    @property
    def end(self) -> int:
        total = self.timeline.total
        return total if self.ends is None else min(self.ends, total)

    def at(self, moment: int) -> Reading:
        """What the clock shows at this moment; at its end it stands."""
        elapsed = self.running.elapsed(moment)
        reading = self.timeline.at(min(elapsed, self.end))
        return replace(reading, over=elapsed >= self.end)


class SoundAhead(Struct, frozen=True):
    """A cue to be heard at a moment of the class's clock."""

    cue: Cue
    moment: int


class Listener(Protocol):
    """Who is told; each call returns quickly and may call `ClockEngine.wake`."""

    def on_tick(self, reading: Reading) -> None:
        """Something that is shown has changed."""

    def on_cues(self, cues: tuple[CueHeard | CueSkipped, ...]) -> None:
        """These cues came due: show them, or say that they were skipped."""

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None:
        """Schedule these sounds; each is handed over once."""

    def on_silence(self) -> None:
        """Nothing scheduled so far holds any longer; what still does is handed over anew."""

    def on_over(self) -> None:
        """The segment has ended. Once, unless it is reopened and ends again."""


class ClockEngine:
    """Serves one segment after the other, as `view` shows them; none while it shows None."""

    def __init__(
        self, clock: ClassClock, view: Callable[[], EngineView | None], listener: Listener
    ) -> None:
        self._clock = clock
        self._view = view
        self._listener = listener
        self._woken = asyncio.Event()
        self._go: int | None = None
        self._track = CueTrack((), 0)
        self._scheduled: tuple[SoundAhead, ...] = ()
        self._shown: Reading | None = None
        self._over = False

    async def run(self) -> None:
        """Run until cancelled."""
        while True:
            self._woken.clear()
            wait = min(self.look(), LONGEST_SLEEP)
            with suppress(TimeoutError):
                async with asyncio.timeout(wait):
                    await self._woken.wait()

    def wake(self) -> None:
        """Look again at once: the clock was held, resumed, set or wound on."""
        self._woken.set()

    def look(self) -> float:
        """Tell the listener what is so now; return the real seconds until that changes."""
        now, view = self._clock.now(), self._view()
        if view is None:
            self._schedule((), now)
            self._go = None
            return math.inf
        elapsed = view.running.elapsed(now)
        self._follow(view, elapsed)
        deadline = self._deadline(view, elapsed, now)
        self._tell_reading(view.at(now))
        self._schedule(self._sounds(view, elapsed, now), now)
        self._track, cues = self._track.due(elapsed)
        if cues:
            self._listener.on_cues(cues)
        self._tell_over(over=elapsed >= view.end)
        return math.inf if deadline is None else self._clock.real_seconds(deadline)

    def until_change(self) -> float:
        """Real seconds until a digit changes or a cue is due; infinite where none will."""
        now, view = self._clock.now(), self._view()
        deadline = None
        if view is not None:
            deadline = self._deadline(view, view.running.elapsed(now), now)
        return math.inf if deadline is None else self._clock.real_seconds(deadline)

    def _follow(self, view: EngineView, elapsed: int) -> None:
        cues = tuple(cue for cue in view.timeline.cues if cue.at <= view.end)
        if view.running.go == self._go:
            self._track = self._track.following(cues)
            return
        self._go = view.running.go
        self._track = CueTrack.entered(cues, elapsed)
        self._shown, self._over = None, False

    def _deadline(self, view: EngineView, elapsed: int, now: int) -> int | None:
        """The moment of the next change; None if none comes by itself."""
        if elapsed >= view.end:
            return None
        cue = next((cue.at for cue in self._track.cues if cue.at > elapsed), view.end)
        digit = view.timeline.next_change(elapsed)
        changes = (cue, view.end) if digit is None else (cue, digit, view.end)
        return view.running.moment(min(changes), now)

    def _tell_reading(self, reading: Reading) -> None:
        shown = replace(reading, elapsed=0)
        if shown != self._shown:
            self._shown = shown
            self._listener.on_tick(reading)

    def _sounds(self, view: EngineView, elapsed: int, now: int) -> tuple[SoundAhead, ...]:
        moments = (
            (cue, view.running.moment(cue.at, now)) for cue in self._track.upcoming(elapsed, AHEAD)
        )
        return tuple(SoundAhead(cue, at) for cue, at in moments if at is not None)

    def _schedule(self, sounds: tuple[SoundAhead, ...], now: int) -> None:
        waiting = {sound for sound in self._scheduled if sound.moment > now}
        if not waiting <= set(sounds):
            self._listener.on_silence()
            self._scheduled = tuple(sound for sound in self._scheduled if sound.moment <= now)
        if new := tuple(sound for sound in sounds if sound not in self._scheduled):
            self._listener.on_sounds(new)
        self._scheduled = sounds

    def _tell_over(self, *, over: bool) -> None:
        if over and not self._over:
            self._over = True
            self._listener.on_over()
        self._over = over
