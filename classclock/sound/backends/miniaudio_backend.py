"""Sound through miniaudio: one stream, open all the time, each cue begun at its frame."""

from collections.abc import Callable, Generator
from importlib.util import find_spec
from typing import Any

from msgspec import Struct

from classclock.sound.agenda import Agenda
from classclock.sound.backends.backend import NoSound
from classclock.sound.frame_clock import FrameClock
from classclock.sound.mixing import Mixer
from classclock.sound.waves import RATE, Waves

_PERIOD_MS = 20


class _Way(Struct, frozen=True):
    """How a sound system is used."""

    backends: tuple[str, ...]
    ready: int
    """Periods that fit its buffer."""
    queued: int
    """Periods in it that are heard before the block that is asked for."""


# A sound server, as recorded through its null sink: with a fifth of a second ready no beep comes
# off while every core is busy, with less some came 30 ms late. It asks for more at the last moment.
_SERVER = _Way(("PULSEAUDIO",), ready=10, queued=1)
# Straight to a card, which asks as soon as there is room, as the drivers' interface has it; not
# recorded. What loudspeakers and TVs add, the club's offset takes off.
_CARD = _Way((), ready=4, queued=3)
_PATIENCE = 3  # times asked in a row (1.5 s) without a block in between: the device is gone
_PATIENCE_AT_START = 10  # a sound server may take a block and then stand still for two seconds


def installed() -> bool:
    """Whether it is there: it has no wheels for some processors."""
    return find_spec("miniaudio") is not None


class MiniaudioBackend:
    def __init__(self, agenda: Agenda, waves: Waves, now: Callable[[], int]) -> None:
        """Open the stream. Raises NoSound when there is no device to open it on."""
        self._mixer = Mixer(agenda, waves)
        self._now = now
        self._fault: str | None = None
        self._seen = 0
        self._stood = 0
        try:
            import miniaudio  # noqa: PLC0415 - loads the system's audio libraries
        except Exception as error:
            raise NoSound(f"miniaudio: {error}") from error
        try:
            self._open(miniaudio, _SERVER)
        except miniaudio.MiniaudioError:
            try:
                self._open(miniaudio, _CARD)
            except Exception as error:
                raise NoSound(f"miniaudio: {error}") from error
        self.name = f"miniaudio, {self._device.backend}"
        if self._device.backend == "Null":  # plays to nobody, on a machine without any sound
            self.close()
            raise NoSound("miniaudio found no sound device")
        self._device.stop_callback = self._stopped
        blocks = self._blocks()
        next(blocks)
        try:
            self._device.start(blocks)
        except Exception as error:
            self.close()
            raise NoSound(f"miniaudio: {error}") from error

    def _open(self, miniaudio: Any, way: _Way) -> None:
        self._clock = FrameClock(
            way.queued * _PERIOD_MS * RATE // 1000, way.ready * _PERIOD_MS * RATE // 1000
        )
        self._device: Any = miniaudio.PlaybackDevice(
            output_format=miniaudio.SampleFormat.SIGNED16,
            nchannels=1,
            sample_rate=RATE,
            buffersize_msec=_PERIOD_MS,
            callback_periods=way.ready,
            backends=[getattr(miniaudio.Backend, name) for name in way.backends] or None,
            app_name="classclock",
        )

    def fault(self) -> str | None:
        """Tell what went wrong; a device that no longer asks for sound counts as gone."""
        self._stood = self._stood + 1 if self._clock.frames == self._seen else 0
        self._seen = self._clock.frames
        started = self._seen > RATE // 2
        if self._stood >= (_PATIENCE if started else _PATIENCE_AT_START):
            self._fault = self._fault or "the device stands still"
        return self._fault

    def close(self) -> None:
        self._device.stop_callback = None  # it is called for our own stop as well
        self._device.close()

    def _stopped(self) -> None:
        self._fault = self._fault or "the device has stopped"

    def _blocks(self) -> Generator[bytes, int, None]:
        """Give a block for each request.

        An error that left here would be printed by the library and then be silence for good.
        """
        frames = yield b""
        while True:
            try:
                start = self._clock.next_block(self._now(), frames)
                block = self._mixer.block(start, frames)
            except Exception as error:  # noqa: BLE001 - kept for whoever asks for the fault
                self._fault = self._fault or f"{type(error).__name__}: {error}"
                block = bytes(2 * frames)
            frames = yield block
