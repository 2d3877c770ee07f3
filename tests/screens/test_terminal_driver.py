"""What the driver leans on in Textual, in a terminal of its own: a new one may do it otherwise."""

import asyncio
import os
import re
import signal
import sys
from collections.abc import Callable, Iterator
from contextlib import suppress
from typing import Any

import pyte
import pytest
from textual import constants
from textual.app import App, ComposeResult
from textual.driver import Driver
from textual.drivers._writer_thread import WriterThread
from textual.drivers.headless_driver import HeadlessDriver
from textual.widgets import Label

from classclock.machine.terminal import Terminal
from classclock.machine.terminal_query import TerminalQuery
from classclock.screens import terminal_driver
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.look import Look
from classclock.screens.terminal_driver import UPDATE, UPDATED, NeverWaitingDriver
from classclock.wall.colours.theme import DARK

if sys.platform == "win32":
    pytest.skip("Textual has another driver there", allow_module_level=True)

COLUMNS, ROWS = 40, 9
COMMANDS = re.compile(r"(?:\x1b\[[?<>=][0-9;]*\$?[a-z]|\x1b\][^\x1b\a]*(?:\x1b\\|\a)|\a)+")
"""ECMA-48's private modes and xterm's, with questions about them, and texts for the system."""
CAN_UPDATE_AT_ONCE = b"\x1b[?2026;2$y"
TELLS_ITS_SIZE = b"\x1b[?2048;2$y"
SIGNALS = (signal.SIGTSTP, signal.SIGCONT, signal.SIGWINCH, signal.SIGTTOU, signal.SIGTTIN)


class Watched(NeverWaitingDriver):
    """Notes what Textual writes."""

    def __init__(self, *args: Any, **options: Any) -> None:
        super().__init__(*args, **options)
        self.written: list[str] = []

    def write(self, data: str) -> None:
        self.written.append(data)
        super().write(data)


class Plain(App[None]):
    """A whole screen of text."""

    def compose(self) -> ComposeResult:
        for row in range(ROWS):
            yield Label(f"row {row} of the depot")

    @property
    def watched(self) -> Watched:
        assert isinstance(self._driver, Watched)
        return self._driver


class Window:
    """A terminal's other end, which is read only as something on it is asked for."""

    def __init__(self, master: int) -> None:
        os.set_blocking(master, False)
        self.master = master
        self._taken, self._drawn = b"", 0
        self._screen = pyte.Screen(COLUMNS, ROWS)
        self._stream = pyte.ByteStream(self._screen)

    @property
    def painted(self) -> str:
        """All so far, ends of lines as they were written."""
        return self._taken.decode(errors="ignore").replace("\r\n", "\n")

    def has_painted(self, text: str) -> bool:
        with suppress(BlockingIOError):
            self._taken += os.read(self.master, 65536)
        return text in self.painted

    def shown(self) -> list[str]:
        """What stands on the screen by now, row by row."""
        self._stream.feed(self._taken[self._drawn :])
        self._drawn = len(self._taken)
        return [line.strip() for line in self._screen.display]


@pytest.fixture
def window(monkeypatch: pytest.MonkeyPatch) -> Iterator[Window]:
    monkeypatch.setenv("COLUMNS", str(COLUMNS))
    monkeypatch.setenv("LINES", str(ROWS))
    kept = [(number, signal.getsignal(number)) for number in SIGNALS]
    master, slave = os.openpty()
    with os.fdopen(slave, "r+b", buffering=0) as end:
        file = open(end.fileno(), "w", encoding="utf-8", closefd=False)  # noqa: SIM115
        monkeypatch.setattr(sys, "__stdin__", file)
        monkeypatch.setattr(sys, "__stderr__", file)
        yield Window(master)
    os.close(master)
    for number, handler in kept:
        signal.signal(number, handler)


async def until(true: Callable[[], bool]) -> None:
    async with asyncio.timeout(10):
        while not true():  # noqa: ASYNC110  of the other end of a terminal nothing tells
            await asyncio.sleep(0.005)


def is_whole(data: str) -> bool:
    return all(f"row {row}" in data for row in range(ROWS))


async def test_all_that_textual_writes_is_a_frame_which_ends_by_placing_the_cursor_or_a_command(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    past_us: list[str] = []
    monkeypatch.setattr(WriterThread, "write", lambda _, text: past_us.append(text))
    app = Plain(driver_class=Watched)
    run = asyncio.ensure_future(app.run_async())
    await until(lambda: window.has_painted("row 8"))
    os.write(window.master, TELLS_ITS_SIZE + CAN_UPDATE_AT_ONCE)
    await until(lambda: window.has_painted("\x1b[?2048h") and app._sync_available)
    app.bell()
    written, before = app.watched.written, len(app.watched.written)
    app.call_later(app.refresh)
    await until(lambda: any(is_whole(data) for data in written[before:]))
    at = next(index for index in range(before, len(written)) if is_whole(written[index]))
    update, frame, updated = written[at - 1 : at + 2]
    assert (update, updated) == (UPDATE, UPDATED)
    await until(lambda: window.has_painted(f"{UPDATE}{frame}{UPDATED}"))
    screen = pyte.Screen(COLUMNS, ROWS)
    pyte.Stream(screen).feed(frame)
    assert [line.strip() for line in screen.display] == [
        f"row {row} of the depot" for row in range(ROWS)
    ]
    app.exit()
    await run
    await until(lambda: window.has_painted("\x1b[?1049l"))
    assert past_us == []
    for data in app.watched.written:
        assert data.endswith("H") or COMMANDS.fullmatch(data), data
        assert not (data.endswith("H") and COMMANDS.fullmatch(data)), data


async def test_after_nobody_read_for_long_all_is_painted_anew(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    app = Plain(driver_class=Watched)
    run = asyncio.ensure_future(app.run_async())
    await until(lambda: window.has_painted("row 8"))
    label = app.query(Label).first()
    assert app.watched._output is not None
    while not app.watched._output._backlog.behind:
        app.watched.write(f"\x1b[1;1H{'nobody reads ' * 1000}\x1b[1;1H")
        await asyncio.sleep(0)
    label.update("the last")
    rows = ["the last", *(f"row {row} of the depot" for row in range(1, ROWS))]
    await until(lambda: window.has_painted(rows[-1]) and window.shown() == rows)
    app.exit()
    await run


async def test_where_a_terminal_cannot_be_opened_anew_textual_writes_as_it_does(
    window: Window, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(terminal_driver, "opened_anew", lambda _: None)
    app = Plain(driver_class=Watched)
    run = asyncio.ensure_future(app.run_async())
    await until(lambda: window.has_painted("row 8"))
    app.exit()
    await run
    await until(lambda: window.has_painted("\x1b[?1049l"))


def driver_of(
    monkeypatch: pytest.MonkeyPatch, chosen: str | None, query: TerminalQuery | None = None
) -> type[Driver]:
    monkeypatch.setattr(constants, "DRIVER", chosen)

    async def flow(app: ClassclockApp) -> str:
        return str(app)

    return ClassclockApp(Look(DARK, Terminal()), flow, query=query).driver_class


def test_it_takes_the_place_of_textual_s_own_but_of_none_that_somebody_chose(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    assert driver_of(monkeypatch, None) is NeverWaitingDriver
    headless = "textual.drivers.headless_driver:HeadlessDriver"
    assert driver_of(monkeypatch, headless) is HeadlessDriver


def test_a_terminal_that_was_asked_what_it_is_holds_up_nothing_either(
    monkeypatch: pytest.MonkeyPatch, window: Window
) -> None:
    terminal = sys.__stderr__
    assert terminal is not None
    query = TerminalQuery(terminal.fileno(), terminal.fileno(), lambda: 0.0)
    assert issubclass(driver_of(monkeypatch, None, query), NeverWaitingDriver)
