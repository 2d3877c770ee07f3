"""Somebody who came to two rooms of one book: what both have in the book, and what is elsewhere."""

import csv
from pathlib import Path
from typing import Any

import pytest

from tests.book.tables.test_rooms import Room, rooms
from tests.handed_over_bytes import holds_name

__all__ = ["rooms"]


def scores(into: Path) -> list[str]:
    with (into / "results.csv").open(encoding="utf-8", newline="") as opened:
        return [row["score"] for row in csv.DictReader(opened)]


def test_two_of_one_name_are_handed_their_own(rooms: tuple[Room, Room], tmp_path: Path) -> None:
    hall, shed = rooms
    for room, theirs in ((hall, ["7+12", "60 kg"]), (shed, ["8+3"])):
        into = tmp_path / f"from-{room.name}"
        assert room.says("athlete", "Max", "--folder", str(into)) == 0
        assert scores(into) == theirs


def test_who_is_one_person_in_both_is_told_that_the_other_keeps_journals(
    rooms: tuple[Room, Room],
    tmp_path: Path,
    capsys: pytest.CaptureFixture[str],
) -> None:
    hall, shed = rooms
    assert hall.says("book", "merge", f"{shed.name}/max", "max") == 0
    capsys.readouterr()
    assert hall.says("athlete", "Max", "--folder", str(tmp_path / "out")) == 0
    said: Any = capsys.readouterr()
    assert said.err == "another room keeps journals about them: ask for its folder there\n"
    assert scores(tmp_path / "out") == ["7+12", "60 kg", "8+3"]
    assert "Another room of the club" in (tmp_path / "out" / "README.txt").read_text("utf-8")
    for path in (tmp_path / "out").iterdir():
        assert not holds_name(path.read_bytes(), "Noor"), path.name
