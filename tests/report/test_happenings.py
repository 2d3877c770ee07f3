"""The page for the club's own file: valid, printable, and nothing in it but text."""

import re
import shutil
import subprocess
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.report.class_html import class_html
from classclock.report.class_report import class_report
from classclock.report.happenings import Happening, Happenings
from classclock.report.happenings_html import BY_HAND, happenings_html
from classclock.report.happenings_text import LOCAL_RULES, NOTHING, happenings_lines

WHEN = datetime.fromisoformat("2026-11-24T18:40:05+01:00")
STARTED = "2026-11-24T18:30:00.000+01:00"
NOTE = Happening(WHEN, "note", "Turntable, 4:12", "Noor: left knee, stopped")
HOLD = Happening(WHEN, "hold", "Turntable, 4:12", "to 18:41:10, 1:05")
ACCIDENT = Happening(WHEN, "accident", "Turntable, 4:12", "<b>[red]\x1b[2J=cmd()")
TIDY = shutil.which("tidy")


def told(*happened: Happening) -> Happenings:
    return Happenings("Depot Tuesday", STARTED, "Line 0 Depot", "0 Points Row", happened)


@pytest.mark.skipif(TIDY is None, reason="Debian's tidy isn't installed")
@pytest.mark.parametrize("happened", [(), (NOTE,), (NOTE, HOLD, ACCIDENT) * 9])
def test_a_validator_finds_no_fault_in_the_page(
    tmp_path: Path, happened: tuple[Happening, ...]
) -> None:
    # HTML Tidy 5: exit status 0 is no error and no warning.
    path = tmp_path / "notes.html"
    path.write_bytes(happenings_html(told(*happened)))
    done = subprocess.run(
        [str(TIDY), "-e", "-q", str(path)], capture_output=True, text=True, check=False
    )
    assert (done.returncode, done.stderr) == (0, "")


def test_there_is_room_to_write_by_hand_after_an_accident_alone() -> None:
    with_one, without = (
        happenings_html(told(*happened)).decode() for happened in ((ACCIDENT,), (NOTE, HOLD))
    )
    for asked in BY_HAND:
        assert asked in with_one
        assert asked not in without
    assert LOCAL_RULES in with_one
    assert LOCAL_RULES in without


def test_hostile_text_is_text_on_the_page_and_in_lines() -> None:
    page, lines = happenings_html(told(ACCIDENT)).decode(), happenings_lines(told(ACCIDENT))
    assert r"&lt;b&gt;[red]\x1b[2J=cmd()" in page
    assert lines[4] == r"  18:40:05  <b>[red]\x1b[2J=cmd()  (Turntable, 4:12)"


def test_nothing_is_said_to_be_nothing() -> None:
    assert NOTHING in happenings_html(told()).decode()
    assert happenings_lines(told())[-1] == NOTHING


def test_notes_leave_the_report_on_one_page(depot: Any) -> None:
    held = depot.document("2026-11-24", depot.turntable(depot.rounds("Ilse", 7, 12)))
    short, long = "the heater is out", "left knee, " * 22
    bare, noted = (class_report(held, notes=notes) for notes in ((), (short, long) * 20))
    sizes = (
        re.search(r"table {.*font-size: ([0-9.]+)pt", class_html(one).decode())
        for one in (bare, noted)
    )
    largest, smaller = (float(size[1]) for size in sizes if size)
    assert smaller < largest
    page = class_html(noted).decode()
    assert page.count(short) == 20
    assert page.count(long.strip()) == 20
