"""What is heard in a room without a loudspeaker: a sound server of our own, and its recording."""

import os
import shutil
import signal
import subprocess
import tempfile
import threading
from collections.abc import Iterator, Mapping
from contextlib import contextmanager
from pathlib import Path

import numpy as np
import pytest

from classclock.clock.source import raw_now
from classclock.sound.backends.simpleaudio_backend import installed_safely

RATE = 48_000
_PLUGIN = "libasound_module_pcm_pulse.so"
LOUD = 1000  # of 32,767
CAN_BE_RECORDED = pytest.mark.skipif(
    not (shutil.which("pulseaudio") and shutil.which("parec")),
    reason="pulseaudio and its parec aren't installed",
)

_ALSA_TO_PULSE = """</usr/share/alsa/alsa.conf>
pcm.!default { type pulse }
ctl.!default { type pulse }
"""
"""simpleaudio knows ALSA only; Debian's `libasound2-plugins` leads that to a sound server."""
PLAYERS = (
    "miniaudio",
    pytest.param(
        "simpleaudio",
        marks=pytest.mark.skipif(
            not installed_safely() or not list(Path("/usr/lib").glob(f"**/{_PLUGIN}")),
            reason="simpleaudio isn't installed, or ALSA has no way to a sound server",
        ),
    ),
)
WAKING_S = 4
"""A null sink takes its first block and then stands still for up to 1.8 s; simpleaudio's first
stream is given up after two or three."""


class Recording:
    """What comes out of the room's sink, with the raw moment of each sample."""

    def __init__(self, environ: dict[str, str]) -> None:
        self.blocks: list[tuple[int, bytes]] = []
        self._parec = subprocess.Popen(
            [
                *("parec", "--raw", "--device=room.monitor", f"--rate={RATE}"),
                *("--channels=1", "--format=s16le", "--latency-msec=5"),
            ],
            stdout=subprocess.PIPE,
            env=environ,
        )
        self._thread = threading.Thread(target=self._read)
        self._thread.start()

    def _read(self) -> None:
        assert self._parec.stdout is not None
        while block := os.read(self._parec.stdout.fileno(), 65_536):
            self.blocks.append((raw_now(), block))

    def stop(self) -> None:
        with self._parec:
            self._parec.send_signal(signal.SIGTERM)
            self._thread.join()

    def onsets(self) -> list[int]:
        """Frames at which it gets loud after a tenth of a second of silence."""
        loud = np.flatnonzero(np.abs(np.frombuffer(self.sound(), np.int16).astype(int)) > LOUD)
        return [
            int(frame)
            for place, frame in enumerate(loud)
            if not place or frame - loud[place - 1] > RATE // 10
        ]

    def sound(self) -> bytes:
        whole = b"".join(block for _, block in self.blocks)
        return whole[: len(whole) // 2 * 2]

    def moment(self, frame: int) -> int:
        """When that frame came, from the block that came soonest after it was full."""
        frames, zeros = 0, []
        for at, block in self.blocks:
            frames += len(block) // 2
            zeros.append(at - frames * 1_000_000_000 // RATE)
        return min(zeros[len(zeros) // 2 :]) + frame * 1_000_000_000 // RATE


def way_to(room: Mapping[str, str]) -> dict[str, str]:
    """What a program's environment must have in it to be heard there."""
    return {name: room[name] for name in ("PULSE_SERVER", "ALSA_CONFIG_PATH", "CLASSCLOCK_SOUND")}


@contextmanager
def silent_room(player: str = "miniaudio") -> Iterator[dict[str, str]]:
    """A sound server of our own with nothing but a null sink; gives the way to reach it."""
    with tempfile.TemporaryDirectory() as folder:  # a socket's path must be short
        home = Path(folder)
        socket, alsa = home / "socket", home / "asoundrc"
        alsa.write_text(_ALSA_TO_PULSE)
        environ = {**os.environ, "HOME": folder, "XDG_RUNTIME_DIR": folder}
        server = subprocess.Popen(
            [
                *("pulseaudio", "-n", "--daemonize=no", "--exit-idle-time=-1", "--disable-shm=yes"),
                f"--load=module-native-protocol-unix auth-anonymous=1 socket={socket}",
                f"--load=module-null-sink sink_name=room rate={RATE} channels=1",
            ],
            env=environ,
            stderr=subprocess.DEVNULL,
        )
        with server:
            pause = threading.Event()
            while not socket.exists() and server.poll() is None:
                pause.wait(0.01)
            yield {
                **environ,
                "PULSE_SERVER": f"unix:{socket}",
                "ALSA_CONFIG_PATH": str(alsa),
                "CLASSCLOCK_SOUND": player,
            }
            server.send_signal(signal.SIGTERM)
