"""A count-in as it is heard: recorded from a sound server's own monitor, beep by beep.

ITU-R BT.1359-1 (1998): sound is noticed apart from its picture from 45 ms early to 125 ms late.
How evenly beeps must come has no source; under 1 ms is this project's own aim.
"""

import math
import threading
from collections.abc import Callable, Iterator
from itertools import pairwise

import numpy as np
import pytest

from classclock.clock.source import MS, raw_now
from classclock.sound.loudspeaker import Loudspeaker
from tests.sound.recording import (
    CAN_BE_RECORDED,
    PLAYERS,
    RATE,
    WAKING_S,
    Recording,
    silent_room,
)

pytestmark = [pytest.mark.real_time, CAN_BE_RECORDED]

Until = Callable[[Callable[[], bool]], None]


@pytest.fixture(params=PLAYERS)
def room(request: pytest.FixtureRequest) -> Iterator[dict[str, str]]:
    with silent_room(request.param) as environ:
        yield environ


def test_a_count_in_is_heard_evenly_and_together_with_the_picture(
    room: dict[str, str], until: Until
) -> None:
    recording = Recording(room)
    loudspeaker = Loudspeaker(environ=room)
    try:
        loudspeaker.start()
        until(lambda: loudspeaker.backend.startswith(room["CLASSCLOCK_SOUND"]))
        pause = threading.Event()
        pause.wait(WAKING_S)
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
