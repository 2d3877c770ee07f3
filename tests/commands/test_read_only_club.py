"""A club that can only be read: who only asks is answered as ever, and nothing is written."""

import os
import shutil
import subprocess
import sys
from collections.abc import Iterator
from pathlib import Path

import pytest

from tests.commands.typed import Said
from tests.old_clubs.old_club import CLUBS

AS_ROOT = hasattr(os, "geteuid") and os.geteuid() == 0
SETPRIV = shutil.which("setpriv")
AS_ANYBODY = (
    # Without these an administrator's account is refused as any other (capabilities(7)).
    (str(SETPRIV), "--bounding-set", "-dac_override,-dac_read_search", "--") if AS_ROOT else ()
)
pytestmark = [
    pytest.mark.skipif(os.name == "nt", reason="folders have no such rights here"),
    pytest.mark.skipif(AS_ROOT and not SETPRIV, reason="an administrator may write everywhere"),
]


@pytest.fixture(params=sorted(CLUBS))
def club(request: pytest.FixtureRequest, tmp_path: Path) -> Iterator[Path]:
    """An old club's folder that anybody may only read, its book beside it or not there."""
    folder = tmp_path / "club"
    shutil.copytree(CLUBS[request.param], folder, ignore=shutil.ignore_patterns("said"))
    yield folder
    may_write(folder, allowed=True)


def may_write(folder: Path, *, allowed: bool) -> None:
    for path in (folder, *folder.rglob("*")):
        path.chmod((path.stat().st_mode | 0o200) if allowed else (path.stat().st_mode & ~0o222))


def asked(club: Path, *words: str) -> Said:
    inherited = {name: value for name, value in os.environ.items() if name != "CLASSCLOCK_BOOK"}
    done = subprocess.run(
        [*AS_ANYBODY, sys.executable, "-m", "classclock", *words],
        capture_output=True,
        text=True,
        timeout=60,
        check=False,
        env={**inherited, "CLASSCLOCK_CLUB": str(club), "COLUMNS": "120"},
    )
    return Said(done.returncode, done.stdout, done.stderr)


def state(folder: Path) -> dict[Path, tuple[int, int]]:
    paths = (folder, *folder.rglob("*"))
    return {path: (path.stat().st_size, path.stat().st_mtime_ns) for path in paths}


def test_chart_and_export_are_as_in_a_club_that_can_be_written(club: Path, tmp_path: Path) -> None:
    other = tmp_path / "other"
    shutil.copytree(club, other)
    may_write(club, allowed=False)
    before = state(club)
    assert asked(club, "chart") == asked(other, "chart")
    read, written = (
        asked(club, "book", "export", str(tmp_path / "a")),
        asked(other, "book", "export", str(tmp_path / "b")),
    )
    assert read.status == written.status == 0
    assert "keeps no note of this copy" in read.err
    for name in ("results.csv", "bests.csv", "athletes.csv", "lifts.csv"):
        assert (tmp_path / "a" / name).read_bytes() == (tmp_path / "b" / name).read_bytes()
    assert state(club) == before


def test_what_would_change_it_is_refused_in_words(club: Path) -> None:
    may_write(club, allowed=False)
    said = asked(club, "book", "rebuild")
    assert said.status == 1
    assert said.err.endswith("Permission denied\n")
    assert said.err.count("\n") == 1


def test_a_book_that_is_behind_is_brought_up_to_date_in_memory(club: Path) -> None:
    whole = asked(club, "chart", "--json").out
    (club / "results").rename(club / "away")
    assert asked(club, "chart", "--json").out != whole  # the book lacks these classes now
    (club / "away").rename(club / "results")
    may_write(club, allowed=False)
    assert asked(club, "chart", "--json").out == whole
