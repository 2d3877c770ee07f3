"""What is on record in the book is what the club's files say: the second way to the same answer."""

from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.club_lifts import club_lifts
from classclock.book.asking.lift_reading import LiftReading
from classclock.book.asking.lift_records import lift_history
from classclock.book.asking.recorded_loads import recorded_history, recorded_loads
from classclock.book.changing import write_down
from classclock.book.files.changes import Merge, Rename
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.tables.keeping import kept_book
from tests.depot_classes import DepotClasses
from tests.lifts_of import lifts_of

LATER = datetime.fromisoformat("2026-11-25T12:00:00+01:00")


@pytest.fixture
def club(depot: DepotClasses, storage: str) -> DepotClasses:
    """Two who lift often, with all that is and isn't on record; one from an old sheet alone."""
    lifted, squats = depot.lifted, depot.squats
    depot.held(
        "2026-11-03", squats(lifted("Ilse", "60 kg", "70 kg", "72.5 kg"), lifted("Bram", "135 lb"))
    )
    depot.held("2026-11-05", squats(lifted("Ilse", "95 kg"), status="provisional"))
    depot.held(
        "2026-11-10",
        squats(
            lifted("Ilse", "62.5 kg", "/80 kg"),
            lifted("Bram + Noor", "90 kg"),
            lifted("Piet", "85 kg", modification="box squat"),
            lifted("Mei", "/40 kg"),
        ),
    )
    depot.held("2026-11-12", squats(lifted("Ilse", "825 kg", load_kg=82.5, score="82.5 kg")))
    depot.held("2026-11-17", squats(lifted("Ilse", "70 kg"), lift=None, benchmark="front squat"))
    depot.held("2026-11-19", squats(lifted("Noor", "50 kg", late=True), sets=[12]))
    old = [
        ImportedScore(
            athlete=ident,
            name=name,
            benchmark=benchmark,
            score=load,
            kind="load",
            worth=1,
            day="2024-03-01",
            work=work,
        )
        for ident, name, benchmark, load, work in (
            ("odell", "Odell", "deadlift", "120 kg", "3 reps"),
            ("odell", "Odell", "deadlift", "115 kg", "?"),
            ("noor", "Noor", "front squat", "55 kg", "5 reps"),
        )
    ]
    write_down(
        depot.folder,
        [
            Import(file="old.csv", scores=tuple(old)),
            Rename(athlete="bram", name="Abram"),
            Merge(gone="piet", kept="noor", name="Noor"),
        ],
        LATER,
    )
    return depot


def test_the_book_says_of_everybody_what_the_files_say(club: DepotClasses) -> None:
    classes, _ = club_lifts(club.folder)
    with kept_book(club.folder, 0) as (book, _), book.reading() as connection:
        assert recorded_history(connection) == lift_history(classes)
        for who in ("ilse", "bram", "noor", "odell", "mei"):
            assert recorded_loads(connection, who) == lifts_of(classes, who), who
        assert recorded_loads(connection, "ilse")["front squat"].heaviest.load.kg == 82.5
        for began in (datetime.fromisoformat(f"2026-11-{day}T18:30:00+01:00") for day in (10, 12)):
            earlier, _ = club_lifts(club.folder, began)
            assert recorded_history(connection, before=began) == lift_history(earlier)


def test_a_class_has_loads_from_the_files_where_the_book_cant_be_asked(
    club: DepotClasses, monkeypatch: pytest.MonkeyPatch
) -> None:
    asked = LiftReading(club.folder).history()
    monkeypatch.setenv("CLASSCLOCK_BOOK", "postgresql+psycopg://coach@127.0.0.1:1/depot")
    assert LiftReading(club.folder).history() == asked


def test_a_club_that_remembers_nothing_is_left_as_it_is(tmp_path: Path, monkeypatch: Any) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    assert LiftReading(tmp_path / "new").history().by_id == {}
    assert not (tmp_path / "new").exists()
