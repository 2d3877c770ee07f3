"""A count-in as it is heard: recorded from a sound server's own monitor, beep by beep.

ITU-R BT.1359-1 (1998): sound is noticed apart from its picture from 45 ms early to 125 ms late.
How evenly beeps must come has no source; under 1 ms is this project's own aim.
"""

import math
import os
import shutil
import signal
import subprocess
import tempfile
import threading
from collections.abc import Callable, Iterator
from itertools import pairwise
from pathlib import Path

import numpy as np
import pytest

from classclock.clock.source import raw_now
from classclock.sound.loudspeaker import Loudspeaker

pytestmark = [
    pytest.mark.real_time,
    pytest.mark.skipif(
        not (shutil.which("pulseaudio") and shutil.which("parec")),
        reason="pulseaudio and its parec aren't installed",
    ),
]

MS = 1_000_000
RATE = 48_000
LOUD = 1000  # of 32,767
Until = Callable[[Callable[[], bool]], None]


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


@pytest.fixture
def room(until: Until) -> Iterator[dict[str, str]]:
    """A sound server of our own with nothing but a null sink; gives the way to reach it."""
    with tempfile.TemporaryDirectory() as folder:  # a socket's path must be short
        home = Path(folder)
        socket = home / "socket"
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
            until(socket.exists)
            yield {
                **environ,
                "PULSE_SERVER": f"unix:{socket}",
                "CLASSCLOCK_SOUND": "miniaudio",
            }
            server.send_signal(signal.SIGTERM)


def test_a_count_in_is_heard_evenly_and_together_with_the_picture(
    room: dict[str, str], until: Until
) -> None:
    recording = Recording(room)
    loudspeaker = Loudspeaker(environ=room)
    try:
        loudspeaker.start()
        until(lambda: loudspeaker.backend.startswith("miniaudio"))
        pause = threading.Event()
        pause.wait(2)  # a null sink takes its first block and then stands still for up to 1.8 s
        go = raw_now() + 2100 * MS
        dues = [go - 1800 * MS, go - 1200 * MS, go - 600 * MS, go]
        for number, due in enumerate(dues):
            loudspeaker.schedule(f"{number}", "go" if due == go else "short", due)
        pause.wait((go - raw_now()) / 1_000_000_000 + 0.1)
        loudspeaker.cancel_all()  # a hold: what sounds is cut off
        pause.wait(0.4)
    finally:
        loudspeaker.close()
        recording.stop()
    onsets = recording.onsets()
    assert len(onsets) == 4
    gaps = [(later - earlier) * 1000 / RATE for earlier, later in pairwise(onsets)]
    off = sorted(abs(gap - 600) for gap in gaps)
    assert off[1] < 1
    assert off[-1] < 5
    beside = [(recording.moment(frame) - due) / MS for frame, due in zip(onsets, dues, strict=True)]
    assert min(beside) > -45
    assert max(beside) < 125
    tail = np.frombuffer(recording.sound(), np.int16)[onsets[-1] + math.ceil(0.35 * RATE) :]
    assert len(tail)
    assert not tail.any()  # go would sound for 0.65 s
    assert loudspeaker.poll() == ()
