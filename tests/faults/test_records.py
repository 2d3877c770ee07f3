"""A club's own records, spoiled: each command answers in plain words, and the others still do."""

import random
import shutil
from pathlib import Path

import pytest

from classclock.clock.source import MS, raw_now
from classclock.commands.command_line import main
from tests.faults.conftest import Machine, Seen, Times
from tests.faults.spoiling import spoiled, spoiled_json

PLAN = """
title = "Depot Thursday"
[[segment]]
name = "Front squat"
format = "interval"
repeat = 2
steps = [{ work = "1:00", label = "3 reps" }]
lift = "front squat"
sets = [{ reps = 3, percent = 65 }, { reps = 3, percent = 70 }]
score = "load"
[[segment]]
name = "Turntable"
benchmark = "turntable"
format = "rounds-in-time"
time = "3:00"
  [[segment.station]]
  movement = "box step-over"
  reps = 6
  options = ["lower box"]
  [[segment.station]]
  movement = "bodyweight squat"
  reps = 12
"""


@pytest.fixture
def records(machine: Machine, monkeypatch: pytest.MonkeyPatch) -> Path:
    """The folder of a club that has held a class, changed a name and written a copy."""
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(machine.folder))
    monkeypatch.chdir(machine.folder.parent)
    coach = machine.opens(plan=PLAN)
    coach.start()
    coach.wind(20)
    coach.type("60n40i")
    coach.wind(120)
    coach.type("<enter>")
    coach.start()
    for keys in ("n", "i:b1", "12b", "-b", ".i"):
        coach.wind(10)
        coach.type(keys)
    coach.wind(200)
    coach.type("<enter>")
    assert coach.session.save()
    coach.session.close()
    assert main(["book", "rename", "Bram", "Bram V"]) == 0
    assert main(["book", "export", "copies"]) == 0
    return machine.folder


def commands(journal: Path) -> tuple[list[str], ...]:
    return (
        ["results"],
        ["results", "--json"],
        ["report"],
        ["report", "--json"],
        ["report", "--html", "report.html"],
        ["report", "--notes"],
        ["notes"],
        ["notes", "--json"],
        ["chart"],
        ["chart", "--json"],
        ["athlete", "Noor"],
        ["load", "Noor"],
        ["replay", str(journal)],
        ["replay", str(journal), "--json"],
        ["book", "rebuild"],
        ["book", "name", "1", "Uri"],
        ["book", "merge"],
        ["book", "undo"],
        ["book", "export", "again"],
        ["book", "erase", "Noor"],
        ["book", "erase", "Noor", "--yes"],
    )


def test_records_spoiled_in_any_way_end_no_command_in_a_traceback(
    records: Path,
    times: Times,
    seen: Seen,
    capsys: pytest.CaptureFixture[str],
    tmp_path_factory: pytest.TempPathFactory,
) -> None:
    kept = tmp_path_factory.mktemp("kept") / "depot"
    shutil.copytree(records, kept)
    (journal,) = (records / "journals").glob("[!.]*.jsonl")
    files = [path for path in records.rglob("*") if path.suffix in (".json", ".jsonl")]
    assert {path.name for path in files} >= {journal.name, "changes.jsonl", "copies.jsonl"}
    chance = random.Random(16)  # noqa: S311  a sample, no secret
    answers = {0: 0, 1: 0, 2: 0}
    slowest = 0
    for _ in range(times(40, 1500)):
        path = chance.choice(files)
        spoil = chance.choice((spoiled, spoiled_json))
        data = spoil(path.read_bytes(), chance)
        path.write_bytes(data)
        command = chance.choice(commands(journal))
        before = raw_now()
        try:
            status = main(command)
        except Exception as error:  # noqa: BLE001  what must not happen, with what brought it about
            pytest.fail(f"{' '.join(command)}: {error!r} for {path.name}: {data[-3000:]!r}")
        slowest = max(slowest, (raw_now() - before) // MS)
        out, err = capsys.readouterr()
        assert status in (0, 1, 2)
        assert "Traceback" not in out + err
        assert "\x1b" not in out + err
        answers[status] += 1
        shutil.rmtree(records)
        shutil.copytree(kept, records)
    seen(
        f"{answers[0]} done, {answers[1] + answers[2]} answered that it can't be; "
        f"the slowest took {slowest} ms"
    )
