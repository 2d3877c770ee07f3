"""A class that a later classclock ran: this one says so and touches nothing."""

import json
import os
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files.journal import Journal, JournalTooNewError, read_journal
from classclock.book.files.unfinished import LaterJournal, unfinished
from classclock.clock.source import WoundSource
from classclock.commands.command_line import main
from classclock.live.session_opening import rejoin_session
from classclock.machine.locking import held, lock_of
from classclock.plan.settings.club import Club
from classclock.screens.pages.home.home_list import unfinished_entries

UPDATE = '"Sneezed" was written by a later classclock: update this one'


def with_event(path: Path, name: str = "Sneezed", **fields: Any) -> int:
    """Write one more event into a journal, as it would stand there; the number of its line."""
    lines = path.read_bytes().splitlines()
    last = json.loads(lines[-1])
    line = {"n": last["n"] + 1, "event": name, "wall": last["wall"], "at": last["at"], **fields}
    path.write_bytes(b"\n".join([*lines, json.dumps(line).encode()]) + b"\n")
    return len(lines) + 1


def bytes_of(folder: Path) -> dict[Path, bytes]:
    return {path: path.read_bytes() for path in folder.rglob("*") if path.is_file()}


@pytest.fixture
def later(coach: Any, tmp_path: Path) -> Path:
    """The journal of a class that was cut off in a piece, its last event a later version's."""
    coach.type("<down>")
    coach.start()
    coach.wind(60)
    coach.type("n")
    coach.session.close()
    path: Path = coach.session.journal.path
    with_event(path)
    return path


@pytest.mark.parametrize("goes_on", [False, True], ids=["at the end", "within"])
@pytest.mark.parametrize("command", ["replay", "resume", "resume the latest"])
def test_an_event_of_a_later_version_is_refused_with_its_line_and_its_name(
    later: Path,
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
    command: str,
    goes_on: bool,  # noqa: FBT001  a case of the test
) -> None:
    line = len(later.read_bytes().splitlines())
    if goes_on:
        with_event(later, "Tapped", lane="Noor")
    before = bytes_of(tmp_path)
    arguments = {
        "replay": ["replay", str(later)],
        "resume": ["resume", str(later), "--club", str(tmp_path)],
        "resume the latest": ["resume", "--club", str(tmp_path)],
    }
    assert main(arguments[command]) == 1
    out, err = capsys.readouterr()
    assert out == ""
    assert err == f"{later}:{line}: {UPDATE}\n"
    assert bytes_of(tmp_path) == before


def test_home_lists_the_other_classes_and_says_why_this_one_waits(
    later: Path, open_class: Callable[..., Any], source: WoundSource, tmp_path: Path
) -> None:
    other = open_class("Piet", "Tuva")
    other.session.close()
    for path in (later, other.session.journal.path):
        os.utime(path, (source.wall().timestamp(),) * 2)
    found = unfinished(later.parent, source.wall())
    assert {type(one): one.path for one in found} == {
        Journal: other.session.journal.path,
        LaterJournal: later,
    }
    entries = {entry.kind: entry for entry in unfinished_entries(tmp_path, source.wall())}
    assert entries["unfinished"].opens == other.session.journal.path
    told = entries["faulty"]
    line = len(later.read_bytes().splitlines())
    assert (told.title, told.words) == (later.name, f"line {line}: {UPDATE}")
    assert (told.opens, told.instead) == (None, "update classclock")


def test_a_class_that_a_later_version_closed_bothers_nobody(
    later: Path, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    with_event(later, "ClassClosed")
    now = datetime.fromtimestamp(later.stat().st_mtime).astimezone()
    assert unfinished(later.parent, now) == ()
    assert main(["resume", "--club", str(tmp_path)]) == 1
    assert "no class was cut off" in capsys.readouterr().err


def test_a_class_that_a_later_version_runs_is_not_offered(
    later: Path,
) -> None:
    now = datetime.fromtimestamp(later.stat().st_mtime).astimezone()
    assert len(unfinished(later.parent, now)) == 1
    with held(lock_of(later), 5):
        assert unfinished(later.parent, now) == ()


@pytest.mark.parametrize(
    ("name", "fields", "said"),
    [
        ("Tapped", {"lane": "Noor", "loudly": True}, '"Tapped" with more in it than is known here'),
        (
            "PersonAdded",
            {"person": {"id": "u", "name": "Uri", "key": "u", "height": 180}},
            '"PersonAdded" with more in it than is known here',
        ),
        ("Sneez\x1bed", {}, '"Sneez\\x1bed"'),
    ],
)
def test_what_only_a_later_version_knows_of_an_event_is_refused_too(
    coach: Any, tmp_path: Path, name: str, fields: dict[str, Any], said: str
) -> None:
    coach.session.close()
    path = coach.session.journal.path
    line = with_event(path, name, **fields)
    before = path.read_bytes()
    with pytest.raises(JournalTooNewError) as refused:
        read_journal(path)
    words = f"{path}:{line}: {said} was written by a later classclock: update this one"
    assert str(refused.value) == words
    with pytest.raises(JournalTooNewError):
        rejoin_session(path, folder=tmp_path, club=Club(), sound=False)
    assert path.read_bytes() == before
