"""Somebody asks to be erased: nothing that is in reach speaks of them any more."""

import json
from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

from classclock.book.changing import write_down
from classclock.book.erasing.erasing import erase, look
from classclock.book.exporting import export_book
from classclock.book.files.changes import MarkSet, Merge, Rename
from classclock.book.files.copies import write_copy
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes, find
from tests.books_on_each_storage import emptied

WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")


def erased(book: Book, name: str) -> Any:
    with book.reading() as connection:
        (athlete,) = find(connection, name)
    return erase(book, athlete, WHEN)


def names(book: Book) -> list[str]:
    with book.reading() as connection:
        return [one.name for one in all_athletes(connection)]


def everything_on_disk(folder: Path) -> bytes:
    return b"".join(path.read_bytes() for path in folder.rglob("*") if path.is_file()).lower()


def test_no_record_of_the_club_holds_the_name_or_the_id_any_more(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp], tmp_path: Path
) -> None:
    saoirse = depot.rounds("Saoirse", 7, 12, note="corrected: Saoirse called seven")
    pair = depot.timed("Saoirse + Bram", "9:00", note="")
    depot.held("2026-11-03", depot.turntable(saoirse, depot.rounds("Ilse", 8)))
    depot.held("2026-11-10", depot.third_rail(pair, depot.timed("Noor", "8:31")))
    write_down(depot.folder, [MarkSet(athlete="saoirse", mark="under 18", on=True)], WHEN)
    up_to_date()
    export_book(book, tmp_path / "out")
    write_copy(depot.folder, tmp_path / "saoirse.html", b"<p>Saoirse</p>")
    assert b"saoirse" in everything_on_disk(tmp_path)
    erased(book, "Saoirse")
    book.close()
    assert b"saoirse" not in everything_on_disk(tmp_path)
    assert names(book) == ["Bram", "Ilse", "Noor"]


def test_everybody_elses_scores_and_ranks_stay(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    lanes = [depot.rounds("Saoirse", 9, rank=1), depot.rounds("Ilse", 8, rank=2)]
    path = depot.held("2026-11-03", depot.turntable(*lanes))
    up_to_date()
    erased(book, "Saoirse")
    saved = json.loads(path.read_text("utf-8"))["pieces"][0]["lanes"]
    assert [(lane["rank"], lane["athlete"], lane["score"]) for lane in saved] == [
        (1, "erased", "9+0"),
        (2, "Ilse", "8+0"),
    ]
    table = path.with_name(f"{path.stem}-turntable.csv").read_text("utf-8")
    assert "1,erased,9+0" in table


def test_nobody_erased_comes_back_when_the_book_is_made_anew_or_an_old_file_returns(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    path = depot.held(
        "2026-11-03", depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 8))
    )
    before = path.read_bytes()
    up_to_date()
    erased(book, "Ilse")
    path.write_bytes(before)  # somebody puts a backup back
    up_to_date()
    assert names(book) == ["Bram"]
    emptied(book)
    catch_up(book, 0)
    assert names(book) == ["Bram"]


def test_who_comes_to_a_class_again_later_is_somebody_new(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 9)))
    up_to_date()
    erased(book, "Ilse")
    depot.held("2026-11-27", depot.turntable(depot.rounds("Ilse", 5)))
    up_to_date()
    with book.reading() as connection:
        (ilse,) = all_athletes(connection)
    assert (ilse.classes, ilse.first_day) == (1, "2026-11-27")


def test_all_entries_that_were_merged_go_together(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 8)))
    depot.held("2026-11-10", depot.turntable(depot.rounds("Ilsabet", 7)))
    write_down(
        depot.folder,
        [Merge(gone="ilsabet", kept="ilse"), Rename(athlete="ilse", name="Ilse B")],
        WHEN,
    )
    up_to_date()
    assert names(book) == ["Bram", "Ilse B"]
    erased(book, "Ilse B")
    assert names(book) == ["Bram"]
    assert b"ils" not in everything_on_disk(depot.folder)


def test_imported_scores_go_too_and_the_others_of_the_file_stay(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    def score(name: str) -> ImportedScore:
        return ImportedScore(
            athlete=f"imported-{name.lower()}",
            name=name,
            benchmark="turntable",
            score="7+0",
            kind="rounds",
            worth=7_000_000,
            day="2020-01-01",
        )

    imported = Import(file="old.csv", scores=(score("Ilse"), score("Bram")))
    write_down(depot.folder, [imported], WHEN)
    up_to_date()
    erased(book, "Ilse")
    assert names(book) == ["Bram"]
    with book.reading() as connection:
        assert len(book_contents(connection)["results"]) == 1


def test_another_person_of_the_same_name_is_left_alone(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Noor", 7, members=["noor-1"])))
    other = depot.rounds("Noor", 8, members=["noor-2"], note="corrected: Noor called eight")
    path = depot.held("2026-11-10", depot.turntable(other))
    before = path.read_bytes()
    up_to_date()
    with book.reading() as connection:
        first, _ = find(connection, "Noor")
    erase(book, first, WHEN)
    assert path.read_bytes() == before
    with book.reading() as connection:
        assert [one.id for one in all_athletes(connection)] == ["noor-2"]


def test_a_copy_that_was_changed_since_is_left_and_named(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp], tmp_path: Path
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    up_to_date()
    export_book(book, tmp_path / "out")
    edited = tmp_path / "out" / "results.csv"
    edited.write_bytes(edited.read_bytes() + b"my own row\r\n")
    with book.reading() as connection:
        (ilse,) = find(connection, "Ilse")
    assert edited in look(book, ilse, WHEN).changed
    reach = erase(book, ilse, WHEN)
    assert reach.changed == [edited]
    assert edited.exists()
    assert not (tmp_path / "out" / "athletes.csv").exists()


def test_results_that_are_damaged_are_named_and_not_said_to_be_done(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    whole = depot.held("2026-11-03", depot.turntable(depot.rounds("Saoirse", 9)))
    torn = depot.held("2026-11-05", depot.turntable(depot.rounds("Saoirse", 8)))
    strange = depot.held("2026-11-07", depot.turntable(depot.rounds("Saoirse", 7)))
    up_to_date()
    torn.write_bytes(torn.read_bytes()[:-20])
    document = json.loads(strange.read_bytes())
    del document["pieces"][0]["lanes"][0]["members"]
    strange.write_text(json.dumps(document))
    before = [torn.read_bytes(), strange.read_bytes()]
    reach = erased(book, "Saoirse")
    assert reach.files == [whole]
    assert reach.damaged == [torn, strange]
    assert [torn.read_bytes(), strange.read_bytes()] == before
    assert b"Saoirse" not in whole.read_bytes()


def test_an_older_book_that_was_kept_goes(
    depot: Any, storage: str, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    up_to_date()
    kept = depot.folder / "book-v0.sqlite"
    kept.write_bytes(b"an older book with Ilse in it")
    erased(book, "Ilse")
    assert not kept.exists()


def test_a_name_goes_in_whichever_form_it_was_written(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    composed, apart = "Zo\u00eb", "Zoe\u0308"
    note = f"corrected: {composed} and {apart} called seven, Zoe six"
    lanes = [
        depot.rounds(apart, 7, members=["q7"], note=note),
        depot.rounds("Zoe", 6, members=["q8"], note=""),
    ]
    people = [{"id": "q7", "name": apart, "key": "z"}, {"id": "q8", "name": "Zoe", "key": "o"}]
    path = depot.held("2026-11-03", depot.turntable(*lanes), people=people)
    up_to_date()
    erased(book, composed)
    kept = json.loads(path.read_text("utf-8"))["pieces"][0]["lanes"]
    assert [lane["athlete"] for lane in kept] == ["erased", "Zoe"]
    assert kept[0]["note"] == "corrected: erased and erased called seven, Zoe six"
