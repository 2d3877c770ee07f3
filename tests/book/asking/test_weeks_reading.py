"""The last weeks from a club's files: only those whose names bear a day of them are opened."""

import datetime as dt
import json
import os
import sys
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking import weeks_reading
from classclock.book.asking.weeks_reading import read_weeks
from classclock.book.files.event_lines import event_line
from classclock.book.files.journal import Anchor
from classclock.book.files.saved_results import journal_of
from classclock.clock.source import local_now
from classclock.commands.command_line import main
from classclock.planning.patterns import ClassHeld
from classclock.report.weeks_text import weeks_lines
from classclock.tally.events import ClassOpened

TODAY = dt.date(2026, 11, 25)
PLAN = """
title = "Depot, strong"
{date}
[[segment]]
name = "Heavy"
format = "countdown"
time = "12:00"
score = "load"
lift = "deadlift"

[[segment]]
name = "Turntable"
format = "rounds-in-time"
time = "16:00"

  [[segment.station]]
  movement = "row"
  metres = 250

  [[segment.station]]
  movement = "push-up"
  reps = 9
"""


def journal(folder: Path, name: str, plan: str = PLAN) -> None:
    """A journal as far as its opening; what comes after is of no use here, and torn."""
    wall = "2026-11-24T18:30:00.000+01:00"
    opening = event_line(ClassOpened(0, "depot", plan.format(date=""), "kg", (), None), 0, wall)
    (folder / "journals").mkdir(parents=True, exist_ok=True)
    (folder / "journals" / name).write_bytes(Anchor("b", 0, 0, wall).line() + opening + b"{to")


def plan(folder: Path, name: str, text: str) -> None:
    (folder / "plans").mkdir(parents=True, exist_ok=True)
    (folder / "plans" / name).write_text(text)


def test_a_class_counts_by_the_plan_in_its_journal(depot: Any) -> None:
    depot.held("2026-11-24", depot.turntable(depot.rounds("Ilse", 7)))
    journal(depot.folder, "2026-11-24-1830-depot.jsonl")
    read = read_weeks(depot.folder, TODAY)
    day = dt.date(2026, 11, 24)
    movements = ("deadlift", "row", "push-up")
    assert read.held == (ClassHeld(day, "Depot, strong", movements, 960_000, ("deadlift",)),)
    assert read.without_plan == 0


def test_without_its_journal_it_counts_by_what_its_results_say(depot: Any) -> None:
    depot.held(
        "2026-11-24",
        depot.squats(depot.lifted("Ilse", "60 kg", "70 kg")),
        depot.third_rail(depot.timed("Ilse", "8:31")),
    )
    read = read_weeks(depot.folder, TODAY)
    day = dt.date(2026, 11, 24)
    assert read.held == (
        ClassHeld(day, "Depot, 2026-11-24", ("Front Squat",), 720_000, ("Front Squat",)),
    )
    assert read.without_plan == 1


def test_classes_of_other_weeks_are_never_opened(
    depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    for day in ("2025-11-24", "2026-10-25", "2026-10-26", "2026-11-25"):
        depot.held(day, depot.turntable(depot.rounds("Ilse", 7)))
    opened: list[str] = []

    def noted(results: Path) -> str:
        opened.append(results.name[:10])
        return journal_of(results)

    monkeypatch.setattr(weeks_reading, "journal_of", noted)
    read_weeks(depot.folder, TODAY)
    assert opened == ["2026-10-26", "2026-11-25"]


def test_a_plan_with_a_day_to_come_is_planned_and_no_other(depot: Any) -> None:
    for name, date in (
        ("today", "date = 2026-11-25"),
        ("soon", "date   =   2026-12-01   # a Tuesday"),
        ("later", "date = 2026-12-02"),
        ("before", "date = 2026-11-24"),
        ("undated", ""),
        ("said", 'notes = "date = 2026-11-26"'),
    ):
        plan(depot.folder, f"{name}.toml", PLAN.format(date=date))
    dated = "\ufeff" + PLAN.format(date="date = 2026-11-27").replace("\n", "\r\n")
    plan(depot.folder, "from-windows.toml", dated.lstrip("\r\n"))
    found = sorted(one.date.isoformat() for one in read_weeks(depot.folder, TODAY).planned)
    assert found == ["2026-11-25", "2026-11-27", "2026-12-01"]


def test_what_cant_be_read_is_passed_over(depot: Any) -> None:
    results = depot.folder / "results"
    results.mkdir(parents=True)
    (results / "2026-11-24-1830-torn.json").write_text('{"title": "to')
    (results / "2026-11-99-1830-odd.json").write_text("{}")
    (results / "2026-11-24-1830-list.json").write_text("[]")
    strange = {"title": "t", "started": "s", "journal": "../../elsewhere", "pieces": [1, {}]}
    (results / "2026-11-24-1900-strange.json").write_text(json.dumps(strange))
    plan(depot.folder, "torn.toml", 'date = 2026-11-26\n[[segment]]\nname = "to')
    if sys.platform != "win32":
        os.mkfifo(depot.folder / "plans" / "pipe.toml")
    (depot.folder / "plans" / "folder.toml").mkdir()
    read = read_weeks(depot.folder, TODAY)
    assert read.held == ()
    assert read.planned == ()


def test_no_club_at_all_has_had_no_classes(tmp_path: Path) -> None:
    assert read_weeks(tmp_path / "none", TODAY) == weeks_reading.ReadWeeks((), (), 0)


def test_the_command_prints_bars_and_leaves_the_folder_as_it_is(
    depot: Any, capsys: pytest.CaptureFixture[str]
) -> None:
    today = local_now().date()
    depot.held(f"{today}", depot.turntable(depot.rounds("Ilse", 7)))
    journal(depot.folder, f"{today}-1830-depot.jsonl")
    tomorrow = today + dt.timedelta(days=1)
    plan(depot.folder, "next.toml", PLAN.format(date=f"date = {tomorrow}"))
    before = sorted(depot.folder.rglob("*"))
    assert main(["weeks", "--club", str(depot.folder)]) == 0
    said = capsys.readouterr().out
    hinge = next(line for line in said.splitlines() if line.strip().startswith("hinge"))
    assert " 1 #" in hinge
    assert " 1 o" in hinge
    assert "hinge, heavy, on" in said
    assert "(deadlift), planned" in said
    assert sorted(depot.folder.rglob("*")) == before


def test_the_command_prints_json(depot: Any, capsys: pytest.CaptureFixture[str]) -> None:
    today = local_now().date()
    depot.held(f"{today}", depot.turntable(depot.rounds("Ilse", 7)))
    assert main(["weeks", "--club", str(depot.folder), "--json"]) == 0
    values = json.loads(capsys.readouterr().out)
    assert values["today"] == f"{today}"
    assert values["without_plan"] == 1
    assert [week["classes"] for week in values["weeks"]] == [0, 0, 0, 0, 1]
    assert values["weeks"][-1]["lengths"]["over 15:00"] == 1
    assert values["coming"]["classes"] == 0
    assert values["coming"]["plans"] == []


def test_lines_stay_within_a_narrow_terminal(depot: Any) -> None:
    from classclock.plan.movements.starter_library import starter_library  # noqa: PLC0415
    from classclock.planning.weeks import weeks_until  # noqa: PLC0415

    held = [ClassHeld(TODAY, "t", ("row",), 600_000)] * 49
    weeks = weeks_until(TODAY, held, (), starter_library())
    table = weeks_lines(weeks, 60)
    assert all(len(line) <= 60 for line in table[:16])
    row = next(line for line in table if "row/run" in line)
    assert row.split() == ["row/run", *["."] * 4, "49", "##", "."]
