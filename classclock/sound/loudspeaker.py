"""What the app holds to be heard: cues are handed over ahead of time, at moments of the raw clock.

Nothing here raises or waits: a class goes on without sound.
"""

import threading
from collections.abc import Callable, Mapping, Sequence
from typing import Protocol

from msgspec import Struct

from classclock.clock.cues import CueKind
from classclock.clock.source import raw_now
from classclock.sound.messages import (
    SILENT,
    Cancel,
    Mute,
    Ready,
    Schedule,
    Skipped,
    SoundNotice,
    SoundOrder,
    SoundStatus,
    Volume,
)
from classclock.sound.supervision import COMMAND, Supervisor

MS = 1_000_000
CHECK: tuple[tuple[CueKind, int], ...] = (
    ("short", 500 * MS),
    ("short", 1500 * MS),
    ("short", 2500 * MS),
    ("go", 3500 * MS),
)
"""The sound check is a count-in, the cues that matter most: each with its ns from now."""


class Scheduled(Struct, frozen=True):
    """One cue that is ahead, with the raw ns at which the room is to hear it."""

    id: str
    kind: CueKind
    due: int


class Speaker(Protocol):
    """Something that cues can be handed to. Its methods return at once and never raise."""

    def start(self) -> None: ...

    def schedule(self, cue_id: str, kind: CueKind, due_raw_ns: int) -> None:
        """Let this cue be heard then; hand it over 0.3 s ahead or more. The same id moves it."""
        ...

    def cancel_all(self) -> None:
        """Drop what is scheduled and cut off what sounds: the clock is held."""
        ...

    def set_volume(self, level: int) -> None:
        """0 to 100."""
        ...

    def mute(self, on: bool) -> None: ...  # noqa: FBT001 - there is nothing else it could mean

    def check(self) -> tuple[Scheduled, ...]:
        """Sound a count-in, and give its moments, so that a screen can show it along."""
        ...

    def poll(self) -> tuple[SoundNotice | Skipped, ...]:
        """What there is to say since the last time, oldest first."""
        ...

    @property
    def trouble(self) -> str:
        """Why cues aren't heard now; empty where they are, or are muted."""
        ...

    def close(self) -> None: ...


def sound_check(now: int) -> tuple[Scheduled, ...]:
    return tuple(
        Scheduled(f"check {place}", kind, now + after)
        for place, (kind, after) in enumerate(CHECK, 1)
    )


class Loudspeaker:
    """Hands cues to a player process that is started anew when it ends or hangs."""

    def __init__(
        self,
        *,
        now: Callable[[], int] = raw_now,
        offset_ms: int = 0,
        volume: int = 100,
        command: Sequence[str] = COMMAND,
        environ: Mapping[str, str] | None = None,
        ask_every_s: float = 1.0,
    ) -> None:
        """`offset_ms` is how much a loudspeaker or TV lags: cues are played that much earlier."""
        self._now = now
        self._offset = offset_ms * MS
        self._volume = volume
        self._muted = False
        self._lock = threading.Lock()
        self._ahead: dict[str, Scheduled] = {}
        self._said: list[SoundNotice | Skipped] = []
        self._trouble = ""
        self.backend = ""
        """What the cues go through at present; empty until the first player is ready."""
        self._player = Supervisor(
            self._heard, self._greeting, command=command, environ=environ, ask_every_s=ask_every_s
        )

    def start(self) -> None:
        self._player.start()

    def schedule(self, cue_id: str, kind: CueKind, due_raw_ns: int) -> None:
        cue = Scheduled(cue_id, kind, due_raw_ns)
        with self._lock:
            self._forget_past()
            self._ahead[cue_id] = cue
        self._player.tell(self._order(cue))

    def cancel_all(self) -> None:
        with self._lock:
            self._ahead.clear()
        self._player.tell(Cancel())

    def set_volume(self, level: int) -> None:
        self._volume = max(0, min(100, level))
        self._player.tell(Volume(self._volume))

    def mute(self, on: bool) -> None:  # noqa: FBT001 - as in Speaker
        self._muted = on
        self._player.tell(Mute(on))

    def check(self) -> tuple[Scheduled, ...]:
        self._player.start()  # if it was given up, the coach wants it tried again
        cues = sound_check(self._now())
        for cue in cues:
            self.schedule(cue.id, cue.kind, cue.due)
        return cues

    def poll(self) -> tuple[SoundNotice | Skipped, ...]:
        with self._lock:
            said = tuple(self._said)
            self._said.clear()
        return said

    @property
    def trouble(self) -> str:
        return "" if self._muted else self._trouble

    def close(self) -> None:
        self._player.close()

    def _order(self, cue: Scheduled) -> SoundOrder:
        return Schedule(cue.id, cue.kind, cue.due - self._offset)

    def _greeting(self) -> tuple[SoundOrder, ...]:
        """Give what a new player must know: how loud, and what is still ahead."""
        with self._lock:
            self._forget_past()
            ahead = tuple(map(self._order, self._ahead.values()))
        return (Volume(self._volume), Mute(self._muted), *ahead)

    def _forget_past(self) -> None:
        now = self._now() + self._offset
        self._ahead = {name: cue for name, cue in self._ahead.items() if cue.due > now}

    def _heard(self, status: SoundStatus) -> None:
        if isinstance(status, Ready):
            self.backend = status.backend
            if status.backend != SILENT:
                self._trouble = ""
        elif isinstance(status, SoundNotice) and status.lasts:
            self._trouble = status.text
        elif isinstance(status, SoundNotice | Skipped):
            with self._lock:
                self._said.append(status)


class SilentLoudspeaker:
    """Sounds nothing and remembers what it was told; for rehearsals and tests."""

    def __init__(self, now: Callable[[], int] = raw_now) -> None:
        self._now = now
        self.scheduled: list[Scheduled] = []
        """What is ahead, in the order in which it was handed over."""
        self.volume = 100
        self.muted = False
        self.cancels = 0

    def start(self) -> None:
        """Nothing has to be started."""

    def schedule(self, cue_id: str, kind: CueKind, due_raw_ns: int) -> None:
        self.scheduled = [cue for cue in self.scheduled if cue.id != cue_id]
        self.scheduled.append(Scheduled(cue_id, kind, due_raw_ns))

    def cancel_all(self) -> None:
        self.scheduled.clear()
        self.cancels += 1

    def set_volume(self, level: int) -> None:
        self.volume = max(0, min(100, level))

    def mute(self, on: bool) -> None:  # noqa: FBT001 - as in Speaker
        self.muted = on

    def check(self) -> tuple[Scheduled, ...]:
        cues = sound_check(self._now())
        for cue in cues:
            self.schedule(cue.id, cue.kind, cue.due)
        return cues

    def poll(self) -> tuple[SoundNotice | Skipped, ...]:
        return ()

    @property
    def trouble(self) -> str:
        """Nothing was to be heard."""
        return ""

    def close(self) -> None:
        """Nothing is open."""
