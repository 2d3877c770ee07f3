"""A named pipe in the place of each file that a command reads: an answer, and at once."""

import os
import sys
from pathlib import Path

import pytest

from tests.commands.typed import Typed

pytestmark = pytest.mark.skipif(not hasattr(os, "mkfifo"), reason="no named pipes here")
SAID = "a pipe or a device, no"
ASKED: tuple[tuple[str, str, int, str], ...] = (
    ("plan.toml", "check plan.toml", 1, "no plan file. Name a plan file, ending in .toml"),
    ("plan.toml", "run plan.toml --athletes Bo", 1, SAID),
    ("plan.toml", "edit plan.toml", 1, SAID),
    ("plan.toml", "new plan.toml", 1, SAID),
    ("taps.csv", "rehearse turntable --athletes Bo --taps taps.csv", 1, "nobody writes"),
    ("class.jsonl", "replay class.jsonl", 1, SAID),
    ("class.jsonl", "resume class.jsonl", 1, SAID),
    ("class.json", "report class.json", 1, "this is no results file"),
    ("old.csv", "book import old.csv", 2, SAID),
    ("club.toml", "check turntable", 1, SAID),
    ("club.toml", "chart", 1, SAID),
    ("movements.toml", "check turntable", 1, SAID),
    ("changes.jsonl", "chart", 1, SAID),
    ("results/2026-03-03.json", "chart", 0, "no results file: it is left out"),
    ("results/2026-03-03.json", "results", 1, "no results in"),
    ("journals/2026-03-03.jsonl", "resume", 1, "no class was cut off"),
)
"""What is a pipe, what is asked, the exit status, and what is said."""


@pytest.mark.parametrize("asked", ASKED)
def test_nothing_waits_for_a_pipe(
    asked: tuple[str, str, int, str], typed: Typed, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    pipe, command, status, says = asked
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.chdir(tmp_path)
    (tmp_path / pipe).parent.mkdir(exist_ok=True)
    if sys.platform == "win32":
        pytest.skip("no folder has a pipe there")
    os.mkfifo(tmp_path / pipe)
    said = typed(*command.split())
    assert said.status == status
    assert says in said.err
