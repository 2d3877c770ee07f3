"""A club with two plans of its own, one of them faulty; and a class that was cut off in it."""

from collections.abc import Callable
from datetime import timedelta
from pathlib import Path

import pytest

from classclock.clock.source import WoundSource
from classclock.club.plan_files import read_plan
from classclock.live.session_opening import open_session
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look
from classclock.screens.pages.home.home_screen import HomeScreen
from classclock.screens.ways import Ways
from classclock.tally.lane_keys import people_named

GOOD = """
title = "Sandbox for all"
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "8:00"
count_in = "0:10"
  [[segment.station]]
  movement = "row"
  reps = 5
"""
BAD = '\n[[segment]]\nname = "Sandbox"\nformat = "countdown"\ntime = 8:00\n'


@pytest.fixture
def plans(tmp_path: Path) -> Path:
    folder = tmp_path / "plans"
    folder.mkdir()
    (folder / "a-sandbox.toml").write_text(GOOD)
    (folder / "b-broken.toml").write_text(BAD)
    return folder


@pytest.fixture
def source() -> WoundSource:
    return WoundSource()


@pytest.fixture
def make_home(tmp_path: Path, source: WoundSource) -> Callable[[], HomeScreen]:
    """Home as it opens now."""

    def make() -> HomeScreen:
        return HomeScreen(
            Look(),
            folder=tmp_path,
            club=Club(name="Line 0 Depot"),
            now=source.wall(),
            opens=Ways(Look(), tmp_path),
        )

    return make


@pytest.fixture
def cut_off(tmp_path: Path, plans: Path, source: WoundSource) -> Path:
    """The journal of a class whose process was killed ten minutes ago."""
    path = plans / "a-sandbox.toml"
    plan, _ = read_plan(path)
    assert plan is not None
    session = open_session(
        PlanFile("a-sandbox", path.read_text(), plan),
        people_named(["Ilse"]),
        folder=tmp_path,
        club=Club(),
        source=source,
        sound=False,
    )
    session.close()
    source.jump(int(timedelta(minutes=10).total_seconds()) * 10**9)
    return session.journal.path


@pytest.fixture
def cut_off_later(cut_off: Path) -> Path:
    """The same, run by a later classclock: it wrote an event that this one doesn't know."""
    with cut_off.open("ab") as journal:
        journal.write(b'{"n":1,"event":"Sneezed","at":1}\n')
    return cut_off
