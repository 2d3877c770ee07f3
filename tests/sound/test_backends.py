"""The ways of sounding, with pretended audio libraries in place of the real ones."""

import sys
from array import array
from collections.abc import Callable, Generator
from importlib import metadata
from types import SimpleNamespace
from typing import Any

import pytest

from classclock.sound.agenda import TOO_LATE_NS, Agenda, Due
from classclock.sound.backends import simpleaudio_backend
from classclock.sound.backends.backend import NoSound
from classclock.sound.backends.miniaudio_backend import MiniaudioBackend
from classclock.sound.backends.silent_backend import SilentBackend
from classclock.sound.backends.simpleaudio_backend import SimpleaudioBackend, installed_safely
from classclock.sound.waves import RATE, Waves

Until = Callable[[Callable[[], bool]], None]
SECOND = 1_000_000_000


def ignore(_name: str) -> None:
    pass


class PretendedError(Exception):
    """There is no such device, or it can't be opened."""


class PretendedDevice:
    """A stream that asks for sound only when the test does."""

    server = True

    backend = "Pretended"
    stop_callback: Callable[[], None] | None = None
    blocks: Generator[bytes, int, None]

    def __init__(self, *, backends: list[int] | None, **_settings: Any) -> None:
        if backends and not self.server:
            raise PretendedError("no server")
        self.closed = False

    def start(self, blocks: Generator[bytes, int, None]) -> None:
        self.blocks = blocks

    def close(self) -> None:
        self.closed = True
        if self.stop_callback:
            self.stop_callback()


@pytest.fixture
def device(monkeypatch: pytest.MonkeyPatch) -> type[PretendedDevice]:
    class Device(PretendedDevice):
        pass

    library = SimpleNamespace(
        PlaybackDevice=Device,
        SampleFormat=SimpleNamespace(SIGNED16=2),
        Backend=SimpleNamespace(PULSEAUDIO=1),
        MiniaudioError=PretendedError,
    )
    monkeypatch.setitem(sys.modules, "miniaudio", library)
    return Device


def test_a_stream_sounds_what_is_due(device: type[PretendedDevice], waves: Waves) -> None:
    agenda = Agenda(ignore)
    backend = MiniaudioBackend(agenda, waves, lambda: 0)
    agenda.add(Due(0, "a", "go"))
    samples = array("h", backend._device.blocks.send(960))
    assert len(samples) == 960
    assert max(samples) > 10_000
    assert backend.fault() is None


def test_a_machine_that_plays_to_nobody_counts_as_silent(
    device: type[PretendedDevice], waves: Waves
) -> None:
    device.backend = "Null"
    with pytest.raises(NoSound):
        MiniaudioBackend(Agenda(ignore), waves, lambda: 0)


@pytest.mark.parametrize(("server", "frame"), [(True, 960), (False, 3 * 960)])
def test_a_server_has_one_period_queued_and_a_card_without_one_all_but_one(
    device: type[PretendedDevice], waves: Waves, *, server: bool, frame: int
) -> None:
    device.server = server
    agenda = Agenda(ignore)
    backend = MiniaudioBackend(agenda, waves, lambda: 0)
    agenda.add(Due(frame * SECOND // RATE + SECOND // 100, "a", "go"))
    samples = array("h", backend._device.blocks.send(960))
    assert not any(samples[:480])
    assert any(samples[480:])


def test_an_error_while_sounding_is_noticed_and_not_swallowed(
    device: type[PretendedDevice],
) -> None:
    agenda = Agenda(ignore)
    backend = MiniaudioBackend(agenda, {}, lambda: 0)
    agenda.add(Due(0, "a", "go"))
    assert backend._device.blocks.send(10) == bytes(20)
    assert backend.fault() == "KeyError: 'go'"


def test_a_device_that_stops_is_lost_but_our_own_closing_isn_t_a_loss(
    device: type[PretendedDevice], waves: Waves
) -> None:
    stopped = MiniaudioBackend(Agenda(ignore), waves, lambda: 0)
    stopped._device.stop_callback()
    assert stopped.fault() is not None
    closed = MiniaudioBackend(Agenda(ignore), waves, lambda: 0)
    closed.close()
    assert closed.fault() is None


def test_a_device_that_asks_for_nothing_is_lost_sooner_once_it_has_run(
    device: type[PretendedDevice], waves: Waves
) -> None:
    fresh = MiniaudioBackend(Agenda(ignore), waves, lambda: 0)
    assert [fresh.fault() is None for _ in range(9)] == [True] * 9
    assert [fresh.fault() is None for _ in range(2)][-1] is False
    running = MiniaudioBackend(Agenda(ignore), waves, lambda: 0)
    for _ in range(40):
        running._device.blocks.send(960)
        assert running.fault() is None
    assert [running.fault() is None for _ in range(3)] == [True, True, False]


def test_silence_takes_what_is_due_and_reports_what_is_late(until: Until) -> None:
    late: list[str] = []
    agenda = Agenda(late.append)
    backend = SilentBackend(agenda, lambda: 2 * TOO_LATE_NS)
    agenda.add(Due(0, "late", "go"))
    agenda.add(Due(2 * TOO_LATE_NS, "in time", "go"))
    until(lambda: agenda._due == [] and late == ["late"])
    backend.close()


Installed = Callable[[tuple[int, int], str], None]


@pytest.fixture
def installed(monkeypatch: pytest.MonkeyPatch) -> Installed:
    """Pretend this Python and this one distribution."""

    def pretend(python: tuple[int, int], distribution: str) -> None:
        def version(name: str) -> str:
            if name != distribution:
                raise metadata.PackageNotFoundError(name)
            return "1"

        monkeypatch.setattr(metadata, "version", version)
        monkeypatch.setattr(simpleaudio_backend, "sys", SimpleNamespace(version_info=python))

    return pretend


@pytest.mark.parametrize(
    ("python", "distribution", "safe"),
    [
        ((3, 11), "simpleaudio", True),
        ((3, 12), "simpleaudio", False),
        ((3, 13), "simpleaudio", False),
        ((3, 13), "simpleaudio-patched", True),
        ((3, 11), "simpleaudio-patched", True),
        ((3, 11), "", False),
    ],
)
def test_the_build_that_would_end_the_process_is_never_imported(
    python: tuple[int, int], distribution: str, *, safe: bool, installed: Installed
) -> None:
    installed(python, distribution)
    assert installed_safely() is safe
    if not safe:
        with pytest.raises(NoSound, match="isn't installed"):
            SimpleaudioBackend(Agenda(ignore), {}, lambda: 0)


class PretendedLibrary:
    """In place of simpleaudio: keeps what it was given to play, and plays nothing."""

    def __init__(self) -> None:
        self.streams: list[array[int]] = []
        self.ended: set[int] = set()
        self.broken = False

    def play_buffer(self, samples: "array[int]", *_shape: int) -> Any:
        if self.broken:
            raise RuntimeError("no device")
        number = len(self.streams)
        self.streams.append(samples)
        return SimpleNamespace(
            stop=lambda: self.ended.add(number), is_playing=lambda: number not in self.ended
        )

    def begun(self, stream: int = 0) -> list[int]:
        """The frames at which something begins after silence."""
        samples = self.streams[stream]
        return [frame for frame, sample in enumerate(samples) if sample and not samples[frame - 1]]


@pytest.fixture
def library(installed: Installed, monkeypatch: pytest.MonkeyPatch) -> PretendedLibrary:
    installed((3, 11), "simpleaudio")
    pretended = PretendedLibrary()
    monkeypatch.setitem(sys.modules, "simpleaudio", pretended)
    return pretended


BEEP: Waves = {"go": array("h", [400] * 960)}


def test_simpleaudio_writes_each_cue_at_its_frame_and_as_loud_as_set(
    library: PretendedLibrary, until: Until
) -> None:
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, BEEP, lambda: 7 * SECOND)
    assert not any(library.streams[0])
    agenda.volume = 50
    agenda.add(Due(7 * SECOND + SECOND // 4, "a", "go"))
    until(lambda: any(library.streams[0]))
    backend.close()
    until(lambda: sum(map(bool, library.streams[0])) == 960)
    assert library.begun() == [RATE // 4]
    assert max(library.streams[0]) == 100


def test_simpleaudio_lets_a_cue_that_comes_late_be_heard_as_soon_as_it_can(
    library: PretendedLibrary, until: Until
) -> None:
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, BEEP, lambda: 0)
    agenda.add(Due(1_000, "a", "go"))
    until(lambda: any(library.streams[0]))
    backend.close()
    (frame,) = library.begun()
    assert 0.1 * RATE < frame < 0.125 * RATE


def test_a_hold_fades_what_sounds_and_takes_out_what_is_to_come(
    library: PretendedLibrary, until: Until
) -> None:
    now = 0
    agenda = Agenda(ignore)
    long: Waves = {"go": array("h", [400] * RATE)}
    backend = SimpleaudioBackend(agenda, long, lambda: now)
    agenda.add(Due(300_000_000, "a", "go"))
    until(lambda: sum(map(bool, library.streams[0])) == RATE)
    now = 500_000_000
    agenda.cancel()
    until(lambda: sum(map(bool, library.streams[0])) < RATE // 2)
    backend.close()
    assert library.begun() == [0.3 * RATE]
    sounds_until = max(frame for frame, sample in enumerate(library.streams[0]) if sample)
    assert 0.62 * RATE < sounds_until < 0.626 * RATE
    assert len(library.streams[0]) % RATE == 0  # nothing was moved: it is being read


def test_simpleaudio_begins_another_stream_between_two_counts_and_never_within_one(
    library: PretendedLibrary, until: Until
) -> None:
    now = 0
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, BEEP, lambda: now)

    def streams_at(second: int) -> int:
        nonlocal now
        now = second * SECOND
        backend._look_after()
        return len(library.streams)

    def cue(second: int) -> None:
        nonlocal now
        now = second * SECOND
        agenda.add(Due(now + SECOND // 4, f"{second}", "go"))
        until(lambda: backend._latest == now + SECOND // 4)

    assert [streams_at(second) for second in (1, 2, 3, 50)] == [1, 1, 2, 2]  # the first one wakes
    for second in (62, 63, 64):
        cue(second)
        assert streams_at(second + 1) == 2
    assert streams_at(67) == 3
    cue(67 + 120)  # the machine slept, and nothing was looked after
    backend.close()
    assert len(library.streams) == 4
    assert library.ended == {0, 1, 2, 3}


def test_a_device_that_takes_one_stream_only_is_let_go_before_it_is_opened_again(
    library: PretendedLibrary,
) -> None:
    now = 0
    backend = SimpleaudioBackend(Agenda(ignore), BEEP, lambda: now)
    open_one = library.play_buffer

    def play_buffer(samples: "array[int]", *shape: int) -> Any:
        if len(library.ended) < len(library.streams):
            raise RuntimeError("the device is busy")
        return open_one(samples, *shape)

    library.play_buffer = play_buffer  # type: ignore[method-assign]
    now = 3 * SECOND
    backend._look_after()
    assert len(library.streams) == 2
    assert backend.fault() is None
    backend.close()


def test_simpleaudio_without_a_device_is_no_sound_at_the_start_and_a_fault_later(
    library: PretendedLibrary, until: Until
) -> None:
    now = 0
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, BEEP, lambda: now)
    assert backend.fault() is None
    library.ended.add(0)
    assert backend.fault() == "the device has stopped"
    library.ended.clear()
    library.broken, now = True, 120 * SECOND
    agenda.add(Due(now, "a", "go"))
    until(lambda: backend.fault() == "no device")
    with pytest.raises(NoSound, match="no device"):
        SimpleaudioBackend(agenda, {}, lambda: 0)
