"""What a class that was really held has about one of its people, handed over to them."""

import csv
import json
from pathlib import Path
from typing import Any

import pytest

from classclock.commands.command_line import main
from classclock.screens.live.class_actions import note, note_emergency, take_in
from classclock.tally.notes import typed_note
from tests.handed_over_bytes import holds_name


@pytest.fixture
def theirs(coach: Any, monkeypatch: pytest.MonkeyPatch, tmp_path: Path) -> Path:
    """Noor's folder after a class with notes, an accident, corrections, a visitor, a call moved."""
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setenv("CLASSCLOCK_CLUB", str(tmp_path))
    assert not take_in(coach.session, "?").refused
    coach.start()
    coach.wind(60)
    coach.type("<enter>")
    coach.type(":n2")
    coach.start()
    for keys in ("nib", "n", "-n", "ib", ">bn"):
        coach.wind(90)
        coach.type(keys)
    note_emergency(coach.session, "Noor, ankle, ice; Bram called the doctor")
    jot(coach, "n: left knee, stopped; Ilse saw it")
    jot(coach, "Ilse: tired, Noor too")
    coach.wind(900)
    coach.type("4n5i6b7v")
    jot(coach, "Noor walks home with Ilse")
    for _ in range(2):
        coach.wind(2)
        coach.type("*<enter><enter>")
    coach.session.save()
    coach.session.close()
    assert main(["athlete", "Noor", "--folder", str(tmp_path / "for-noor")]) == 0
    return tmp_path / "for-noor"


def jot(coach: Any, line: str) -> None:
    typed = typed_note(line, coach.session.live.record.people)
    note(coach.session, typed.text, typed.about.id if typed.about else None)


def test_nobody_elses_name_is_in_any_byte_of_it(theirs: Path) -> None:
    for path in theirs.iterdir():
        for name in ("Ilse", "Bram"):
            assert not holds_name(path.read_bytes(), name), (path.name, name)
        assert holds_name(path.read_bytes(), "Noor"), path.name


def test_notes_about_them_are_there_and_notes_about_others_arent(theirs: Path) -> None:
    with (theirs / "notes.csv").open(encoding="utf-8", newline="") as opened:
        told = [(row["kind"], row["text"]) for row in csv.DictReader(opened)]
    assert told == [
        ("emergency card", "Noor, ankle, ice; [another name] called the doctor"),
        ("note", "left knee, stopped; [another name] saw it"),
        ("note", "Noor walks home with [another name]"),
    ]


def test_each_call_of_theirs_is_there_with_its_time(theirs: Path) -> None:
    journals = json.loads((theirs / "journals.json").read_text("utf-8"))
    (held,) = journals["journals"]
    events = [line["event"] for line in held["lines"]]
    assert events.count("Tapped") == 2
    assert {"ClassOpened", "OptionChosen", "TookBack", "Moved", "Numbered"} <= set(events)
    (moved,) = (line for line in held["lines"] if line["event"] == "Moved")
    assert moved["to_them"]
    # Moved to her a minute and a half after it was called for Bram.
    assert (moved["called"], moved["when"]) == (
        "2026-11-24T18:37:24+01:00",
        "2026-11-24T18:38:54+01:00",
    )
