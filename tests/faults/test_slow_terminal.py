"""A terminal that reads slowly or not at all: a link over a telephone, a window that hangs.

The class goes on: what is tapped is kept, what ends it ends it, and the screen is right again soon
after the terminal reads.
"""

import signal
import sys
from collections.abc import Callable
from typing import Any

import pyte
import pytest

from classclock.clock.source import stamp_now
from tests.faults.a_full_wall import KEYS, NAMES
from tests.faults.conftest import Seen, WatchedClub
from tests.terminal.conftest import Terminal

if sys.platform == "win32":
    pytest.skip("Textual writes as it does there", allow_module_level=True)

COLUMNS, ROWS = 200, 55
QUICK = 1_000_000
SLOW = 960
"""Bytes a second: a serial line at 9600 baud, ten bits a byte."""
SOON = 5
"""Seconds, on a machine that does much else; the table prints how long it took."""
ENDS: dict[str, Callable[[Terminal], None]] = {
    "SIGTERM": lambda wall: wall.signal(signal.SIGTERM),
    "SIGHUP": lambda wall: wall.signal(signal.SIGHUP),
    "the window is closed": lambda wall: wall.hang_up(),
    "left by key": lambda wall: wall.type("\r"),
}


@pytest.fixture
def wall(club: WatchedClub) -> Terminal:
    """A piece that runs, with all its lanes and colours."""
    wall = club.piece(NAMES, speed=1, columns=COLUMNS, rows=ROWS, CLASSCLOCK_SOUND="silent")
    wall.says("18 reps a round")
    return wall


@pytest.fixture
def seconds(thorough: bool) -> float:  # noqa: FBT001  a fixture
    return 60 if thorough else 6


def tap(club: WatchedClub, wall: Terminal, seconds: float, keys: str) -> str:
    """Strike these keys in so many seconds, all kept within 250 ms; the latest, in words."""
    latest = 0.0
    for key in keys:
        late = kept_after(club, wall, key)
        wall.passes(seconds / len(keys) - late)
        latest = max(latest, late)
    assert [name[0].lower() for name in club.names_tapped()] == list(keys)
    return f"{len(keys)} taps kept {latest * 1000:.0f} ms after their keys at the latest"


def kept_after(club: WatchedClub, wall: Terminal, key: str) -> float:
    """Seconds until a key that is struck now has its line in the journal, with its moment."""
    before, moment, typed = len(club.names_tapped()), club.moment(), stamp_now()
    wall.type(key)
    wall.waits_for(lambda: len(club.names_tapped()) > before, f"{key} to be kept")
    took = stamp_now() - typed
    assert took < 0.25
    assert -1 <= club.tapped()[-1]["at"] - moment < 250
    return took


def ended_after(wall: Terminal, end: Callable[[Terminal], None]) -> float:
    """Seconds until the program has ended: less than one where nothing else runs."""
    began = stamp_now()
    end(wall)
    wall.status()
    took = stamp_now() - began
    assert took < SOON
    return took


def cells(painted: bytes) -> list[list[Any]]:
    """Every sign on a new screen with its colours, but for the foot, where the time of day goes."""
    screen = pyte.Screen(COLUMNS, ROWS)
    pyte.ByteStream(screen).feed(painted)
    return [[screen.buffer[y][x] for x in range(COLUMNS)] for y in range(ROWS - 1)]


def painted_anew(wall: Terminal) -> bytes:
    """All that is sent for a window that has just got its size."""
    wall.resize(COLUMNS - 1, ROWS)
    wall.passes(1)
    before = len(wall.painted)
    wall.resize(COLUMNS, ROWS)
    wall.passes(1)
    return wall.painted[before:]


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
def test_nothing_read_for_a_minute_every_tap_is_kept_and_soon_after_the_screen_is_right(
    club: WatchedClub, wall: Terminal, seconds: float, seen: Seen
) -> None:
    wall.reads(0)
    for columns in range(COLUMNS - 9, COLUMNS + 1):  # each a whole wall that nobody takes
        wall.resize(columns, ROWS)
        wall.passes(0.1)
    said = tap(club, wall, seconds, KEYS[:6])
    wall.type(" ")
    wall.waits_for(lambda: club.events()[-1]["event"] == "Held", "the hold")
    wall.passes(0.3)
    unread = len(wall.painted)
    wall.reads(QUICK)
    later = []
    for _ in range(SOON * 2):
        wall.passes(0.5)
        later.append(len(wall.painted))
    painted = wall.painted[: later[-1]]
    wall.reads(None)
    wanted = cells(painted_anew(wall))
    right = [end for end in later if cells(painted[:end]) == wanted]
    assert right
    assert "held: space resumes" in wall.text
    seen(
        f"{seconds:.0f} s unread: {said}; read again at 1 MB/s, every cell was right in "
        f"{(later.index(right[0]) + 1) / 2} s, after {(right[0] - unread) / 1000:.0f} kB"
    )


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
@pytest.mark.parametrize("end", ENDS)
def test_while_nothing_is_read_a_class_can_be_ended_and_the_terminal_is_put_right(
    club: WatchedClub, wall: Terminal, end: str, seconds: float, seen: Seen
) -> None:
    wall.reads(0)
    wall.passes(seconds - 5)
    wall.type("i\x11")
    wall.passes(0.5)
    took = ended_after(wall, ENDS[end])
    assert club.names_tapped() == ["Ilse"]
    seen(f"ended after {took:.1f} s")
    if end != "the window is closed":
        wall.reads(None)
        wall.passes(0.2)
        wall.is_clean()
        assert b"classclock resume" in wall.painted


@pytest.mark.real_time
@pytest.mark.usefixtures("in_the_table")
def test_read_at_960_bytes_a_second_every_tap_is_kept_and_a_signal_ends_it(
    club: WatchedClub, wall: Terminal, seconds: float, seen: Seen
) -> None:
    wall.reads(SLOW)
    said = tap(club, wall, seconds, KEYS[:8])
    took = ended_after(wall, ENDS["SIGTERM"])
    seen(f"{said}; ended after {took:.1f} s")
    wall.reads(None)
    wall.passes(0.2)
    wall.is_clean()
