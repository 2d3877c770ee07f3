"""A real terminal: the installed program in a pty, and the screen that it paints there.

Nothing here waits for a set time: what is waited for is a text on the screen, with a deadline.
"""

import json
import os
import re
import select
import sys
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pyte
import pytest

from classclock.clock.source import MS, raw_now, stamp_now
from classclock.machine.terminal_kinds import TELLING
from tests.pty_process import PtyProcess

NAMES = "Ilse, Bram, Noor, Piet, Tuva, Uri, Saoirse, Odell, Anouk, Cato, Dagny, Ewa"
PLAN = """
title = "Yard night"
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "{time}"
count_in = "0:03"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
"""
STYLING = re.compile(rb"\x1b\[[0-9;?]*[A-Za-z]")
NOT_INHERITED = {
    *("NO_COLOR", "COLORTERM", "COLUMNS", "LINES", "LC_ALL", "LC_CTYPE", "LANG"),
    *TELLING,
}
GUARD = 1.3
"""Seconds after which the same key counts again."""
CLEANED = {
    "the alternate screen is left": b"\x1b[?1049l",
    "the cursor is back": b"\x1b[?25h",
    "the mouse is the terminal's again": b"\x1b[?1000l",
    "pasting is plain again": b"\x1b[?2004l",
}


class Terminal:
    """One run of `classclock` in a terminal of its own."""

    def __init__(
        self, *arguments: str, columns: int, rows: int, environment: dict[str, str], folder: Path
    ) -> None:
        self.painted = b""
        self._drawn = 0
        self._typed_at = 0
        self._struck: dict[str, float] = {}
        self._pace: float | None = None
        self._paced_since = 0.0
        self._paced = 0
        self._screen = pyte.Screen(columns, rows)
        self._stream = pyte.ByteStream(self._screen)
        self._child = PtyProcess(
            (sys.executable, "-m", "classclock", *arguments),
            columns=columns,
            rows=rows,
            environment=environment,
            folder=folder,
        )

    @property
    def text(self) -> str:
        """What stands on the screen."""
        self._take(0)
        self._draw()
        return "\n".join(self._screen.display)

    def type(self, keys: str | bytes) -> None:
        self._take(0)
        self._typed_at = len(self.painted)
        if isinstance(keys, str):
            self._struck |= dict.fromkeys((*keys, keys), stamp_now())  # an arrow is several signs
        os.write(self._child.child_fd, keys.encode() if isinstance(keys, str) else keys)

    def shows(self, *texts: str, within: float = 15) -> str:
        """Wait until all of these stand on the screen; the whole screen then."""
        self._until(lambda: all(text in self.text for text in texts), f"{texts}", within)
        return self.text

    def says(self, text: str, within: float = 15) -> None:
        """Wait until this was painted since the last key, even if something else is by now."""
        self._until(lambda: self._said(text), f"{text} to be said", within)

    def strikes(self, key: str) -> None:
        """Strike a key once the guard of its last stroke is over."""
        self.passes(self._struck.get(key, 0) + GUARD - stamp_now())
        self.type(key)

    def reads(self, bytes_a_second: float | None) -> None:
        """From now on the terminal takes so much a second of what is painted; None: all of it."""
        self._pace, self._paced_since, self._paced = bytes_a_second, stamp_now(), 0

    def passes(self, seconds: float) -> None:
        """Let real time pass, as it does between two signs of a key that is held down."""
        end = stamp_now() + seconds
        while (left := end - stamp_now()) > 0:
            self._take(left)

    def _said(self, text: str) -> bool:
        plain = STYLING.sub(b"", self.painted[self._typed_at :])
        return text.encode() in plain

    def drops(self, text: str, within: float = 15) -> None:
        """Wait until this no longer stands on the screen."""
        self._until(lambda: text not in self.text, f"{text} to go", within)

    def waits_for(self, true: Callable[[], bool], what: str, within: float = 15) -> None:
        """Wait for something beside the screen."""
        self._until(true, what, within)

    def resize(self, columns: int, rows: int) -> None:
        self._draw()
        self._screen.resize(rows, columns)
        self._child.setwinsize(rows, columns)

    def signal(self, number: int) -> None:
        self._child.kill(number)

    def niceness(self) -> int:
        """How much it gives way to others: more where the number is larger."""
        if sys.platform == "win32":
            raise NotImplementedError("another system's")
        return os.getpriority(os.PRIO_PROCESS, self._child.pid)

    def hang_up(self) -> None:
        """The terminal's window is closed."""
        self._child.hang_up()

    def status(self, within: float = 10) -> int:
        """Wait for the program to end; its exit status, negative where a signal ended it."""
        end = stamp_now() + within
        while (status := self._child.status()) is None:
            if stamp_now() > end:
                pytest.fail(f"still running:\n{self.text}")
            if not self._child.closed:
                self._take(0.05)
        if not self._child.closed:
            while self._take(0):
                pass
        return status

    def is_clean(self) -> None:
        """What the program switched on it has switched off again, and its last words are there."""
        for what, code in CLEANED.items():
            on = code[:-1] + (b"l" if code.endswith(b"h") else b"h")
            assert self.painted.rfind(code) >= self.painted.rfind(on), what

    def end(self) -> None:
        self._child.end()

    def _until(self, true: Callable[[], bool], what: str, within: float) -> None:
        end = stamp_now() + within
        while not true():
            if stamp_now() > end:
                pytest.fail(f"waited {within} s for {what}; the screen:\n{self.text}")
            self._take(0.02)

    def _take(self, wait: float) -> bool:
        """Take what has been painted; whether there was any."""
        most = 65536
        if self._pace is not None:
            most = min(most, round((stamp_now() - self._paced_since) * self._pace) - self._paced)
        if most <= 0:
            select.select([], [], [], min(wait, 0.01))
            return False
        if self._child.closed or not select.select([self._child.child_fd], [], [], wait)[0]:
            return False
        try:
            painted = os.read(self._child.child_fd, most)
        except OSError:
            return False
        self.painted += painted
        self._paced += len(painted)
        return bool(painted)

    def _draw(self) -> None:
        """Draw what has come since the last time; only where somebody looks, for it is slow."""
        self._stream.feed(self.painted[self._drawn :])
        self._drawn = len(self.painted)


class Club:
    """A club's folder, and terminals that run classes in it."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.home = folder / "depot"
        self.terminals: list[Terminal] = []

    def plan(self, time: str = "20:00", name: str = "yard", text: str = PLAN) -> str:
        """Write a plan; the file's name."""
        path = self.folder / f"{name}.toml"
        path.write_text(text.replace("{time}", time), "utf-8")
        return str(path)

    def start(
        self, *arguments: str, columns: int = 120, rows: int = 36, **environment: str
    ) -> Terminal:
        """Start `classclock` with these arguments, in this club."""
        inherited = {name: value for name, value in os.environ.items() if name not in NOT_INHERITED}
        usual = {
            "TERM": "xterm-256color",
            "COLORTERM": "truecolor",
            "LC_ALL": "C.UTF-8",
            "CLASSCLOCK_CLUB": str(self.home),
            "HOME": str(self.folder),
        }
        terminal = Terminal(
            *arguments,
            columns=columns,
            rows=rows,
            environment={**inherited, **usual, **environment},
            folder=self.folder,
        )
        self.terminals.append(terminal)
        return terminal

    def piece(
        self,
        names: str = NAMES,
        *,
        speed: int = 3,
        columns: int = 120,
        rows: int = 36,
        **environment: str,
    ) -> Terminal:
        """A class whose piece has just begun."""
        arguments = ("run", self.plan(), "--athletes", names, "--speed", str(speed))
        terminal = self.start(*arguments, columns=columns, rows=rows, **environment)
        terminal.shows("enter starts", within=30)  # in a narrow window what is wrong comes first
        terminal.type("\r")
        terminal.waits_for(self.has_gone, "go")
        return terminal

    def has_gone(self) -> bool:
        """Whether the newest journal's last start is past its count-in."""
        lines = self.lines()
        anchor = lines[0]["anchor"]
        gos = [line["go"] for line in lines if line.get("event") == "SegmentStarted"]
        return (
            bool(gos)
            and raw_now() > anchor["raw"] + (gos[-1] - anchor["at"]) * MS // anchor["rate"]
        )

    def lines(self) -> list[dict[str, Any]]:
        """What the newest journal holds; every line of it must be whole."""
        journals = (self.home / "journals").glob("[!.]*.jsonl")
        newest = max(journals, key=lambda path: path.stat().st_mtime)
        text = newest.read_text("utf-8")
        if not text.endswith("\n"):
            text = newest.read_text("utf-8")  # a line was being written
        return [json.loads(line) for line in text.splitlines()]

    def events(self) -> list[dict[str, Any]]:
        """The events of the newest journal."""
        return [line for line in self.lines() if "anchor" not in line]

    def taps(self) -> list[str]:
        """By name, whose taps were counted, in their order."""
        names = self.names()
        return [names[event["lane"]] for event in self.events() if event["event"] == "Tapped"]

    def names(self) -> dict[str, str]:
        """What the lanes are called, by their ids."""
        started = (event for event in self.events() if event["event"] == "SegmentStarted")
        return {lane["id"]: lane["name"] for event in started for lane in event["lanes"]}

    def results(self) -> dict[str, Any]:
        """The only results file."""
        (path,) = (self.home / "results").glob("[!.]*.json")
        document: dict[str, Any] = json.loads(path.read_text("utf-8"))
        return document


@pytest.fixture
def club(tmp_path: Path) -> Iterator[Club]:
    club = Club(tmp_path)
    yield club
    for terminal in club.terminals:
        terminal.end()
