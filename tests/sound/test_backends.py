"""The ways of sounding, with pretended audio libraries in place of the real ones."""

import sys
from array import array
from collections.abc import Callable, Generator
from importlib import metadata
from types import SimpleNamespace
from typing import Any

import pytest

from classclock.sound import simpleaudio_backend
from classclock.sound.agenda import TOO_LATE_NS, Agenda, Due
from classclock.sound.backend import NoSound
from classclock.sound.miniaudio_backend import MiniaudioBackend
from classclock.sound.silent_backend import SilentBackend
from classclock.sound.simpleaudio_backend import SimpleaudioBackend, installed_safely
from classclock.sound.waves import Waves

Until = Callable[[Callable[[], bool]], None]


def ignore(_name: str) -> None:
    pass


class PretendedDevice:
    """A stream that asks for sound only when the test does."""

    backend = "Pretended"
    stop_callback: Callable[[], None] | None = None
    blocks: Generator[bytes, int, None]

    def __init__(self, **_settings: Any) -> None:
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

    library = SimpleNamespace(PlaybackDevice=Device, SampleFormat=SimpleNamespace(SIGNED16=2))
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


def test_simpleaudio_plays_each_cue_as_loud_as_set_and_stops_on_a_hold(
    installed: Installed, monkeypatch: pytest.MonkeyPatch, until: Until
) -> None:
    installed((3, 11), "simpleaudio")
    played: list[list[int]] = []
    stops: list[bool] = []
    library = SimpleNamespace(
        play_buffer=lambda samples, *_shape: played.append(samples.tolist()),
        stop_all=lambda: stops.append(True),
    )
    monkeypatch.setitem(sys.modules, "simpleaudio", library)
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, {"go": array("h", [400, -400])}, lambda: 0)
    assert not any(played.pop())  # the moment of silence that shows that there is a device
    agenda.volume = 50
    agenda.add(Due(0, "a", "go"))
    until(lambda: played == [[100, -100]])
    agenda.cancel()
    until(lambda: stops == [True])
    backend.close()


def test_simpleaudio_without_a_device_is_no_sound_at_the_start_and_a_fault_later(
    installed: Installed, monkeypatch: pytest.MonkeyPatch, until: Until
) -> None:
    installed((3, 11), "simpleaudio")

    def broken(*_shape: Any) -> None:
        raise RuntimeError("no device")

    library = SimpleNamespace(play_buffer=lambda *_shape: None, stop_all=lambda: None)
    monkeypatch.setitem(sys.modules, "simpleaudio", library)
    agenda = Agenda(ignore)
    backend = SimpleaudioBackend(agenda, {"go": array("h", [1])}, lambda: 0)
    library.play_buffer = broken
    agenda.add(Due(0, "a", "go"))
    until(lambda: backend.fault() == "no device")
    with pytest.raises(NoSound, match="no device"):
        SimpleaudioBackend(agenda, {}, lambda: 0)
