"""What the faults share: how often each is tried, and what was seen."""

from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path

import pytest

from classclock import session as session_module
from classclock.clock.source import MS, WoundSource
from classclock.plan.club import Club as Settings
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading import parse_plan
from classclock.session import Session, open_session, rejoin_session
from classclock.tally.lane_keys import people_named
from tests.classes.conftest import PLAN, Coach
from tests.terminal.conftest import Club

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
def seen(record_property: Callable[[str, object], None]) -> Seen:
    """Notes what was seen, for the table of `python -m tests.faults`."""
    return lambda words: record_property("seen", words)


@pytest.fixture
def club(tmp_path: Path) -> Iterator[Club]:
    club = Club(tmp_path)
    yield club
    for terminal in club.terminals:
        terminal.end()


class Machine:
    """A machine whose time is wound by hand, the raw clock too, and the club's folder on it."""

    def __init__(self, folder: Path, monkeypatch: pytest.MonkeyPatch) -> None:
        self.folder = folder
        self._patch = monkeypatch
        self.source = WoundSource(
            start=5_000 * MS, wall=datetime.fromisoformat("2026-11-24T18:30:00+01:00")
        )
        self._patch.setattr(session_module, "raw_now", self.source.now)
        self.boot("the first start")

    def boot(self, name: str) -> None:
        self._patch.setattr(session_module, "boot_id", lambda: name)

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
        return Coach(session, self.source)

    def rejoins(self, journal: Path, source: WoundSource | None = None) -> Session:
        """The class of this journal taken up again, by another process or after another start."""
        source = source or self.source
        self._patch.setattr(session_module, "raw_now", source.now)
        session, _ = rejoin_session(
            journal, folder=self.folder, club=Settings(), source=source, sound=False
        )
        return session


@pytest.fixture
def machine(tmp_path: Path, monkeypatch: pytest.MonkeyPatch) -> Machine:
    return Machine(tmp_path / "depot", monkeypatch)
