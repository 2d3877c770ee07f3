"""Loads follow a person through renames, merges, imports and erasures."""

import json
from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.lift_reading import LiftReading
from classclock.book.asking.people_reading import in_files, people_called
from classclock.book.changing import take_back, write_down
from classclock.book.files.changes import Change, Erasure, Merge, Rename, Undo
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.people_rules import digest
from classclock.records.result import ScoreKind
from classclock.strength.class_loads import Handled
from tests.blank_results import LANE, PIECE

NOW = datetime(2026, 11, 25, 18, 30, tzinfo=UTC)


class Records:
    """A club in which Ilse squatted 90 kg five times and then Bram 60 kg, each in a class."""

    def __init__(self, folder: Path) -> None:
        self.folder = folder
        self.squatted("ilse", "Ilse", 90, day=3)
        self.squatted("bram", "Bram", 60, day=10)

    def squatted(self, ident: str, name: str, kg: int, *, day: int) -> None:
        lane: dict[str, Any] = {
            **LANE,
            "load_kg": kg,
            "members": [ident],
            "attempts": [{"set": 1, "load": f"{kg} kg", "load_kg": kg, "made": True}],
        }
        piece = {**PIECE, "format": "interval", "lift": "front squat", "sets": [5], "lanes": [lane]}
        document = {
            "title": "Depot Tuesday",
            "started": f"2026-11-{day:02}T18:30:00+01:00",
            "journal": f"{day}.jsonl",
            "people": [{"id": ident, "name": name, "key": name[0].lower()}],
            "pieces": [piece],
        }
        path = self.folder / "results" / f"2026-11-{day:02}.json"
        path.parent.mkdir(exist_ok=True)
        path.write_text(json.dumps(document), encoding="utf-8")

    def change(self, *changes: Change) -> None:
        write_down(self.folder, changes, NOW)

    def squat(self, ident: str, name: str = "") -> Handled | None:
        return LiftReading(self.folder).history().of(ident, name, "front squat")


@pytest.fixture
def records(tmp_path: Path) -> Records:
    return Records(tmp_path)


def imported(score: str, *, kind: ScoreKind = "load", work: str = "?") -> Import:
    one = ImportedScore(
        athlete="imported-1",
        name="Noor",
        benchmark="front squat",
        score=score,
        kind=kind,
        worth=0,
        day="2024-03-01",
        modification="",
        loads="",
        work=work,
    )
    return Import(file="old.csv", scores=(one,))


def kg(handled: Handled | None) -> float | None:
    return None if handled is None else float(handled.maximum.kg)


def test_what_was_lifted_under_either_entry_is_the_merged_athletes(records: Records) -> None:
    records.change(Merge(gone="ilse", kept="bram"))
    # 90 kg x 5 by Brzycki: 90 x 36/32.
    assert kg(records.squat("bram")) == 101.25
    take_back(records.folder, NOW)
    assert kg(records.squat("bram")) == pytest.approx(67.5)


def test_a_rehearsal_finds_loads_by_the_name_that_somebody_has_now(records: Records) -> None:
    records.change(Rename(athlete="ilse", name="Ilse V"))
    assert kg(records.squat("Ilse V", "Ilse V")) == 101.25
    assert records.squat("Ilse", "Ilse") is None


def test_somebody_new_has_no_loads_of_another_of_that_name(records: Records) -> None:
    assert records.squat("drawn", "Ilse") is None


def test_an_old_sheets_load_counts_as_made_once_unless_it_says_how_often(records: Records) -> None:
    records.change(imported("82.5 kg"))
    assert kg(records.squat("imported-1")) == 82.5
    records.change(imported("82.5 kg", work="5 reps"))
    assert kg(records.squat("imported-1")) == pytest.approx(82.5 * 36 / 32)


def test_a_time_from_an_old_sheet_is_no_load(records: Records) -> None:
    records.change(imported("8:31", kind="time"))
    assert records.squat("imported-1") is None


def test_an_import_taken_back_takes_its_loads_along(records: Records) -> None:
    records.change(imported("82.5 kg"))
    records.change(Undo(of=1))
    assert records.squat("imported-1") is None


def test_whoever_was_erased_has_no_loads_in_imports_left(records: Records) -> None:
    records.change(imported("82.5 kg"))
    later = int(NOW.timestamp() * 1000)
    records.change(Erasure(salt="s", digests=(digest("s", "imported-1"),), before=later))
    assert records.squat("imported-1") is None
    assert all(one.name != "Noor" for one in in_files(records.folder))


def test_somebody_from_an_old_sheet_who_comes_to_a_class_is_the_same_athlete(
    records: Records,
) -> None:
    records.change(imported("82.5 kg"))
    (noor,) = people_called(["Noor"], in_files(records.folder))
    assert (noor.id, noor.key) == ("imported-1", "n")
