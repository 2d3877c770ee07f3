"""Files and names that nobody should write: one plain answer, no traceback, no hang, no escape."""

import os
import random
import subprocess
import sys
from pathlib import Path
from time import process_time_ns
from typing import Any

import pytest
from hypothesis import HealthCheck, given, settings
from hypothesis import strategies as st

from classclock.clock.source import MS
from classclock.commands.command_line import main
from tests.faults.conftest import Machine, Seen, Times
from tests.faults.readers import READERS, Reader
from tests.faults.spoiling import spoiled, spoiled_json

NAMED = {reader.file: reader for reader in READERS}
FUZZER = Path(__file__).with_name("fuzz.py")
LARGE = 2_000_000
HOSTILE = (
    "../../../outside",
    "/etc/outside",
    "..",
    "~/outside",
    "$(touch outside)",
    "a\0b",
    "long" * 1024,
    "\u202etxt.lmot\u202c",
    "\u05e0\u05d5\u05e8",
    "\x1b]0;owned\x07\x1b[2J",
    "[/]",
    "[bold red]x[/bold red]",
    "=cmd()",
    "CON",
    "-rf",
    "\n\r\t",
    "\udcff",
)


@pytest.mark.parametrize("reader", READERS, ids=NAMED)
def test_a_file_spoiled_in_any_way_ends_in_a_plain_answer(
    reader: Reader, tmp_path: Path, times: Times
) -> None:
    path = tmp_path / reader.file
    chance = random.Random(reader.file)  # noqa: S311  a sample, no secret
    ways = (spoiled, spoiled_json) if ".json" in reader.file else (spoiled,)
    for _ in range(times(60, 4000)):
        path.write_bytes(chance.choice(ways)(reader.good, chance))
        reader.read(path)


@pytest.mark.parametrize("reader", READERS, ids=NAMED)
def test_a_fuzzer_that_sees_which_of_our_lines_it_reaches_finds_nothing(
    reader: Reader, times: Times, *, thorough: bool
) -> None:
    pytest.importorskip("atheris")
    if not thorough:
        pytest.skip("takes its time: python -m tests.faults tries it")
    runs = times(1, 10_000)
    command = [sys.executable, str(FUZZER), reader.file, f"-runs={runs}"]
    done = subprocess.run(command, capture_output=True, text=True, timeout=600, check=False)
    assert done.returncode == 0, done.stderr[-2_000:]
    assert f"Done {runs} runs" in done.stderr


@pytest.mark.parametrize("reader", READERS, ids=NAMED)
@settings(
    max_examples=40, deadline=None, suppress_health_check=[HealthCheck.function_scoped_fixture]
)
@given(st.binary(max_size=300))
def test_any_bytes_at_all_end_in_a_plain_answer(
    reader: Reader, tmp_path: Path, data: bytes
) -> None:
    path = tmp_path / reader.file
    path.write_bytes(data)
    reader.read(path)


def large_files(good: bytes) -> dict[str, bytes]:
    """Two megabytes each, made to take long."""
    half = len(good) // 2
    return {
        "the same over and over": good * (LARGE // len(good) + 1),
        "one long line": good[:half] + b"x" * LARGE + good[half:],
        "brackets": good + b"a = " + b"[" * LARGE,
        "braces": good[:half] + b'{"a":' * (LARGE // 5),
        "quotes": good[:half] + b'"' * LARGE,
        "numbers": good + b"9" * LARGE,
        "empty lines": b"\n" * LARGE + good,
        "NUL": bytes(LARGE),
        "commas": b"," * LARGE,
        "backslashes": good[:half] + b'"' + b"\\" * LARGE,
        "one-byte lines": b"x\n" * (LARGE // 2),
    }


@pytest.mark.parametrize("reader", READERS[:-1], ids=list(NAMED)[:-1])
def test_two_megabytes_of_anything_are_answered_within_a_second(
    reader: Reader, tmp_path: Path, seen: Seen
) -> None:
    path = tmp_path / reader.file
    slowest = (0, "")
    for kind, data in large_files(reader.good).items():
        for size in (
            LARGE,
            1_000_000,
            250_000,
            60_000,
        ):  # what is too large, and what is just not too large
            path.write_bytes(data[:size])
            before = process_time_ns()  # of this process: the machine may be busy with others
            reader.read(path)
            slowest = max(slowest, ((process_time_ns() - before) // MS, f"{kind}, {size} bytes"))
    seen(f"the slowest took {slowest[0]} ms: {slowest[1]}")
    assert slowest[0] < 1000, slowest[1]


@pytest.mark.parametrize("name", HOSTILE)
def test_no_name_of_a_plan_or_a_person_reaches_a_file_outside_the_clubs_folder(
    name: str, machine: Machine, tmp_path: Path
) -> None:
    before = everything(tmp_path, but=machine.folder)
    coach = machine.opens(name, "Noor", plan_name=name)
    coach.type("<down>")
    coach.start()
    coach.wind(60)
    coach.type("n")
    coach.wind(1_000)
    assert coach.session.save()
    coach.session.close()
    coach.session.journal.settle(5)
    assert coach.session.on_disk.lacking is None
    assert everything(tmp_path, but=machine.folder) == before
    names = [path.name for path in machine.folder.rglob("*")]
    assert all(part.isascii() and part.isprintable() and len(part) < 120 for part in names)


@pytest.mark.parametrize("name", [name for name in HOSTILE if "\0" not in name])
def test_no_argument_of_a_command_ends_in_a_traceback(
    name: str, tmp_path: Path, monkeypatch: pytest.MonkeyPatch, capsys: pytest.CaptureFixture[str]
) -> None:
    club = tmp_path / "depot"
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(club))
    monkeypatch.chdir(tmp_path)
    commands: list[list[str]] = [
        ["check", name],
        ["replay", name],
        ["resume", name],
        ["rehearse", name, "--athletes", name, "--taps", name],
        ["rehearse", "turntable", "--athletes", name, "--taps", name, "--segment", name],
        ["bar", name],
        ["load", name],
        ["book", "import", name],
        ["athlete", name],
        ["chart", "--sort", name],
        ["book", "rename", name, name],
    ]
    for command in commands:
        try:
            status = main(command)
        except SystemExit as ended:
            status = int(ended.code or 0)
        assert status in (0, 1, 2)
        out, err = capsys.readouterr()
        assert "Traceback" not in out + err
        assert "\x1b" not in out + err
    assert everything(tmp_path, but=club) == {}


def everything(folder: Path, *, but: Path) -> dict[str, Any]:
    """All files under a folder, but for those of the club."""
    found = {}
    for path, _, files in os.walk(folder):
        if but not in (Path(path), *Path(path).parents):
            found.update({f"{path}/{file}": Path(path, file).stat().st_size for file in files})
    return found
