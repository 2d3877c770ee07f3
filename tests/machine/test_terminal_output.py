"""Writing to a terminal that takes little: a pipe of one page, and an event loop turned by hand."""

import asyncio
import fcntl
import os
import sys
import tty
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import cast

import pytest

from classclock.machine import terminal_output
from classclock.machine.opened_anew import has_room, opened_anew
from classclock.machine.terminal_output import TerminalOutput

if sys.platform != "linux":
    pytest.skip("a pipe of a set size", allow_module_level=True)

CELL = b"\x1b[38;2;9;9;9m\xe2\x96\x80\x1b[0m"
FRAME = b"\x1b[1;1H" + CELL * 1000 + b"\x1b[1;1H"
LEFT = b"\x1b[?1049l"


class Timer:
    def __init__(self, call: Callable[[], None]) -> None:
        self.call: Callable[[], None] | None = call

    def cancel(self) -> None:
        self.call = None


class Turns:
    """An event loop that has a turn, or lets its only timer go off, when it is told to."""

    def __init__(self) -> None:
        self.writers: dict[int, Callable[[], None]] = {}
        self.timers: list[Timer] = []

    def add_writer(self, descriptor: int, call: Callable[[], None]) -> None:
        self.writers[descriptor] = call

    def remove_writer(self, descriptor: int) -> None:
        del self.writers[descriptor]

    def call_later(self, delay: float, call: Callable[[], None]) -> Timer:
        self.timers.append(Timer(call))
        return self.timers[-1]

    def turn(self) -> None:
        for descriptor, call in list(self.writers.items()):
            if has_room(descriptor, 0):
                call()

    def time_passes(self) -> None:
        """As long as a terminal may stand still."""
        for timer in self.timers:
            if timer.call is not None:
                timer.call()


class Reader:
    """The other end."""

    def __init__(self, descriptor: int, writer: int) -> None:
        os.set_blocking(descriptor, False)
        self.descriptor, self._writer = descriptor, writer
        self.turns = Turns()
        self.anew: list[None] = []
        loop = cast("asyncio.AbstractEventLoop", self.turns)
        self.output = TerminalOutput(writer, loop, self._paint_anew)

    def is_full(self) -> None:
        """Wait until the last room is filled: the system moves on what it keeps in its own time."""
        while has_room(self._writer, 0.05):
            self.turns.turn()
        with suppress(BlockingIOError):
            while True:
                os.write(self._writer, b" ")

    def takes(self) -> bytes:
        """What there is, without a turn of the loop."""
        try:
            return os.read(self.descriptor, 1 << 20)
        except (BlockingIOError, OSError):
            return b""

    def takes_all(self) -> bytes:
        taken = b""
        while part := self.takes():
            taken += part
            self.turns.turn()
        return taken

    def _paint_anew(self) -> None:
        self.anew.append(None)


@pytest.fixture(autouse=True)
def without_waiting(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(terminal_output, "_AT_ONCE", (0, 0))
    monkeypatch.setattr(terminal_output, "_AT_LAST", (0, 0))


@pytest.fixture
def reader() -> Iterator[Reader]:
    end, writer = os.pipe()
    fcntl.fcntl(writer, fcntl.F_SETPIPE_SZ, 4096)
    os.set_blocking(writer, False)
    reader = Reader(end, writer)
    yield reader
    reader.output.close()
    os.close(end)


@pytest.fixture
def terminal() -> Iterator[Reader]:
    master, slave = os.openpty()
    tty.setraw(slave)
    with open(slave, "w", encoding="utf-8") as file:  # noqa: PTH123  a descriptor
        writer = opened_anew(file)
        assert writer is not None
        reader = Reader(master, writer)
        yield reader
    reader.output.close()
    os.close(master)


def test_what_fits_is_written_at_once_and_in_order(reader: Reader) -> None:
    reader.output.send(b"\x1b[?25l")
    reader.output.paint(b"\x1b[1;1Hone\x1b[1;1H")
    assert not reader.turns.writers
    assert reader.takes() == b"\x1b[?25l\x1b[1;1Hone\x1b[1;1H"


def test_what_does_not_fit_follows_as_there_is_room(reader: Reader) -> None:
    for _ in range(3):
        reader.output.paint(FRAME)
    assert reader.takes_all() == FRAME * 3
    assert not reader.turns.writers
    assert not reader.anew


def test_a_terminal_that_stands_still_gets_the_rest_of_a_sequence_and_all_is_painted_anew_once(
    reader: Reader,
) -> None:
    for _ in range(3):
        reader.output.paint(FRAME)
    reader.output.send(b"\a")
    reader.turns.time_passes()
    reader.output.paint(FRAME)
    assert not reader.anew
    taken = reader.takes_all()
    end = b"\x1b[0m\x1b[?2026l\a"
    assert taken.endswith(end)
    assert FRAME.startswith(taken.removesuffix(end))
    assert len(taken) < 4096 + len(CELL) + len(end)
    assert len(reader.anew) == 1
    reader.output.paint(FRAME)
    assert reader.takes_all() == FRAME
    assert len(reader.anew) == 1


def test_a_terminal_that_takes_a_little_does_not_stand_still(reader: Reader) -> None:
    reader.output.paint(FRAME)
    timer = reader.turns.timers[-1]
    reader.takes()
    reader.turns.turn()
    assert timer.call is None
    assert reader.turns.timers[-1].call is not None


def test_painting_beyond_measure_is_left_out_and_what_was_begun_is_finished(
    reader: Reader,
) -> None:
    for _ in range(100):
        reader.output.paint(FRAME)
    assert reader.takes_all() == FRAME
    assert len(reader.anew) == 1


def test_left_while_it_stands_still_only_what_puts_it_right_is_kept(reader: Reader) -> None:
    reader.output.paint(FRAME)
    reader.output.leave()
    reader.output.paint(FRAME)
    reader.output.send(LEFT)
    taken = reader.takes_all()
    assert taken.endswith(b"\x1b[0m\x1b[?2026l" + LEFT)
    assert len(taken) < 4096 + 100
    assert not reader.anew


def test_left_in_the_ordinary_way_it_gets_nothing_but_what_it_is_sent(reader: Reader) -> None:
    reader.output.leave()
    reader.output.send(LEFT)
    reader.output.close()
    assert reader.takes() == LEFT


def test_a_terminal_that_is_full_to_the_end_finds_itself_put_right_once_it_reads(
    terminal: Reader,
) -> None:
    terminal.output.send(b"\x1b[?1049h")
    for _ in range(9):
        terminal.output.paint(FRAME)
    terminal.is_full()
    terminal.output.leave()
    terminal.output.send(LEFT)
    terminal.output.close()
    assert not terminal.turns.writers
    taken = b"".join(iter(terminal.takes, b""))
    assert taken.endswith(b"\x18\x1b\\\x1b[0m\x1b[?2026l" + LEFT)


@pytest.mark.parametrize("unread", [0, 3])
def test_a_window_that_is_closed_takes_nothing_and_hinders_nothing(unread: int) -> None:
    end, writer = os.pipe()
    os.set_blocking(writer, False)
    reader = Reader(end, writer)
    for _ in range(unread):
        reader.output.paint(FRAME)
    os.close(end)
    other = os.dup(0)  # would be closed in its place by whoever closes a descriptor twice
    reader.output.paint(FRAME)
    reader.output.send(LEFT)
    reader.output.leave()
    reader.output.close()
    reader.output.close()
    assert not reader.turns.writers
    os.close(other)


def test_a_file_is_no_terminal_and_a_terminal_s_own_mark_is_left_alone(
    tmp_path: os.PathLike[str],
) -> None:
    with open(os.path.join(tmp_path, "file"), "w", encoding="utf-8") as file:  # noqa: PTH118, PTH123
        assert opened_anew(file) is None
    assert opened_anew(None) is None
    master, slave = os.openpty()
    with open(slave, "w", encoding="utf-8") as file:  # noqa: PTH123  a descriptor
        anew = opened_anew(file)
        assert anew is not None
        assert not os.get_blocking(anew)
        assert os.get_blocking(slave)
        os.close(anew)
    os.close(master)
