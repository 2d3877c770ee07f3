"""What the faults share: how often each is tried, and what was seen."""

import os
import shutil
import subprocess
import sys
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.clock.source import MS, WoundSource, raw_now
from classclock.live import session_opening
from classclock.live.session import Session
from classclock.live.session_opening import open_session, rejoin_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club as Settings
from classclock.tally.lane_keys import people_named
from tests.classes.conftest import PLAN, Coach
from tests.screens.conftest import open_class as class_on_screen
from tests.terminal.conftest import Club, Terminal

__all__ = ["class_on_screen"]
Times = Callable[[int, int], int]
Seen = Callable[[str], None]


def pytest_addoption(parser: pytest.Parser) -> None:
    parser.addoption(
        "--thorough",
        type=int,
        default=0,
        metavar="PERCENT",
        help="try each fault as often as `python -m tests.faults` does, or so many percent of that",
    )


@pytest.fixture
def times(request: pytest.FixtureRequest, record_property: Callable[[str, object], None]) -> Times:
    """How often: `few` times in the test command, `many` times when all faults are asked for."""
    percent = request.config.getoption("--thorough", 0)

    def count(few: int, many: int) -> int:
        often = max(few, many * percent // 100) if percent else few
        record_property("times", often)
        return often

    return count


@pytest.fixture
def thorough(request: pytest.FixtureRequest) -> bool:
    return bool(request.config.getoption("--thorough", 0))


@pytest.fixture
def in_the_table(*, thorough: bool) -> None:
    """For what takes too long for the test command."""
    if not thorough:
        pytest.skip("it takes long: the table of faults tries it")


@pytest.fixture
def seen(record_property: Callable[[str, object], None]) -> Seen:
    """Notes what was seen, for the table of `python -m tests.faults`."""
    return lambda words: record_property("seen", words)


@pytest.fixture
def disk_of(tmp_path: Path) -> Iterator[Callable[[str], Path]]:
    """A disk of this size, as mount has it."""
    mounted: list[Path] = []

    def mount(size: str) -> Path:
        disk = tmp_path / "stick"
        disk.mkdir()
        if system("mount", "-t", "tmpfs", "-o", f"size={size}", "tmpfs", str(disk)):
            pytest.skip("no disk can be mounted here")
        mounted.append(disk)
        return disk

    yield mount
    for disk in mounted:
        system("umount", "-l", str(disk))


def system(program: str, *arguments: str) -> int:
    """Run a program of the system; its exit status."""
    found = shutil.which(program)
    if found is None:
        return 127
    return subprocess.run([found, *arguments], check=False, capture_output=True).returncode


def fill(disk: Path) -> Path:
    """Leave no room on a disk; the file that takes it."""
    if sys.platform == "win32":
        pytest.skip("no file system of a size of our own")
    filler = disk / f"old photographs {len(list(disk.iterdir()))}"
    with filler.open("wb") as file:
        file.write(bytes(os.statvfs(disk).f_bavail * os.statvfs(disk).f_bsize))
    return filler


class WatchedClub(Club):
    """A club whose journal an outsider reads with the machine's own clock in hand."""

    def begins(self, time: str, *, speed: int = 1, **environment: Any) -> Terminal:
        """A class of three whose count-in has just begun."""
        arguments = ("run", self.plan(time), "--athletes", "Ilse, Bram, Noor")
        terminal = self.start(*arguments, "--speed", str(speed), **environment)
        terminal.shows("enter starts")
        terminal.type("\r")
        terminal.waits_for(lambda: self.go > 0, "the start")
        return terminal

    def moment(self) -> int:
        """The class's moment now (ms), by the machine's clock and the journal's first line."""
        anchor = self.lines()[0]["anchor"]
        return int(anchor["at"] + (raw_now() - anchor["raw"]) * anchor["rate"] // MS)

    @property
    def go(self) -> int:
        """The class's moment of the latest go (ms); 0 before there was one."""
        return max((int(line.get("go", 0)) for line in self.events()), default=0)

    def since_go(self) -> int:
        return self.moment() - self.go

    def waits_until(self, since_go: int, terminal: Terminal) -> None:
        """Until so many milliseconds of the piece have gone."""
        rate = self.lines()[0]["anchor"]["rate"]
        while (left := since_go - self.since_go()) > 0:
            terminal.passes(left / 1000 / rate)

    def calls(self, key: str, name: str, terminal: Terminal) -> None:
        """Strike a lane's key until its first round is said."""
        terminal.type(key)
        terminal.says(f"{name}, round 1")

    def tapped(self) -> list[dict[str, Any]]:
        """The taps of the latest start, each with its lane's `name`."""
        names: dict[str, str] = {}
        taps: list[dict[str, Any]] = []
        for event in self.events():
            if event["event"] == "SegmentStarted":
                names, taps = {lane["id"]: lane["name"] for lane in event["lanes"]}, []
            elif event["event"] == "Tapped":
                taps.append({**event, "name": names[event["lane"]]})
        return taps

    def names_tapped(self) -> list[str]:
        return [tap["name"] for tap in self.tapped()]


@pytest.fixture
def club(tmp_path: Path) -> Iterator[WatchedClub]:
    club = WatchedClub(tmp_path)
    yield club
    for terminal in club.terminals:
        terminal.end()


class Machine:
    """A machine whose time is wound by hand, the raw clock too, and the club's folder on it."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder = folder
        self.sessions: list[Session] = []
        self._patch = monkeypatch
        self.source = WoundSource(
            start=5_000 * MS, wall=datetime.fromisoformat("2026-11-24T18:30:00+01:00")
        )
        self._patch.setattr(session_opening, "raw_now", self.source.now)
        self.boot("the first start")

    def boot(self, name: str) -> None:
        self._patch.setattr(session_opening, "boot_id", lambda: name)

    def opens(self, *names: str, plan: str = PLAN, plan_name: str = "turntable") -> Coach:
        """A class, opened on this machine."""
        read, findings = parse_plan(plan, "turntable.toml")
        assert read is not None, findings
        session = open_session(
            PlanFile(plan_name, plan, read),
            people_named(names or ("Ilse", "Bram", "Noor")),
            folder=self.folder,
            club=Settings(),
            source=self.source,
            sound=False,
        )
        self.sessions.append(session)
        return Coach(session, self.source)

    def rejoins(self, journal: Path, source: WoundSource | None = None) -> Session:
        """The class of this journal taken up again, by another process or after another start."""
        source = source or self.source
        self._patch.setattr(session_opening, "raw_now", source.now)
        session, _ = rejoin_session(
            journal, folder=self.folder, club=Settings(), source=source, sound=False
        )
        self.sessions.append(session)
        return session


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Iterator[Machine]:
    machine = Machine(tmp_path / "depot", monkeypatch)
    yield machine
    for session in machine.sessions:
        session.journal.close()  # its thread would go on in the next test
