"""What no class made: it counts in the order in which it was written, and can be taken back."""

import json
from collections.abc import Callable
from datetime import datetime
from typing import Any

import pytest

from classclock.book.changing import NoSuchChangeError, take_back, write_down
from classclock.book.files.changes import MarkSet, Merge, Rename
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes, best_rows
from tests.books_on_each_storage import emptied

NOW = datetime.fromisoformat("2026-11-25T12:00:00+01:00")


def people(book: Book) -> dict[str, Any]:
    with book.reading() as connection:
        return {one.id: one for one in all_athletes(connection)}


def contents(book: Book) -> bytes:
    with book.reading() as connection:
        return json.dumps(book_contents(connection), sort_keys=True).encode()


@pytest.fixture
def change(depot: Any, up_to_date: Callable[[], CaughtUp]) -> Callable[..., None]:
    def make(*changes: Any) -> None:
        write_down(depot.folder, changes, NOW)
        up_to_date()

    return make


@pytest.fixture
def two_classes(depot: Any, up_to_date: Callable[[], CaughtUp]) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7), depot.rounds("Bram", 6)))
    depot.held("2026-11-10", depot.turntable(depot.rounds("Ilsabet", 8), depot.rounds("Bram", 5)))
    up_to_date()


def imported(name: str, score: str, worth: int, day: str = "2020-05-01") -> Import:
    one = ImportedScore(
        athlete=f"imported-{name.lower()}",
        name=name,
        benchmark="turntable",
        score=score,
        kind="rounds",
        worth=worth,
        day=day,
        loads="?",
        work="?",
    )
    return Import(file="old.csv", scores=(one,))


def test_a_new_name_stays_though_later_classes_say_the_old_one(
    depot: Any, book: Book, two_classes: None, change: Any, up_to_date: Any
) -> None:
    change(Rename(athlete="ilse", name="Ilse B"))
    depot.held("2026-11-17", depot.turntable(depot.rounds("Ilse", 7)))
    up_to_date()
    assert people(book)["ilse"].name == "Ilse B"


def test_two_entries_of_one_person_become_one_with_all_their_scores(
    book: Book, two_classes: None, change: Any
) -> None:
    change(Merge(gone="ilsabet", kept="ilse"))
    assert set(people(book)) == {"ilse", "bram"}
    assert people(book)["ilse"].classes == 2
    with book.reading() as connection:
        (best,) = best_rows(connection, ["ilse"])[("ilse", "turntable")]
    assert (best.result.score, best.times) == ("8+0", 2)


def test_the_entry_that_is_kept_keeps_its_name_though_the_other_came_last(
    depot: Any, book: Book, two_classes: None, change: Any, up_to_date: Any
) -> None:
    depot.held("2026-11-17", depot.turntable(depot.rounds("Ilsabet", 9)))
    change(Merge(gone="ilsabet", kept="ilse", name="Ilse"))
    assert people(book)["ilse"].name == "Ilse"


def test_who_was_merged_stays_merged_in_later_classes(
    depot: Any, book: Book, two_classes: None, change: Any, up_to_date: Any
) -> None:
    change(Merge(gone="ilsabet", kept="ilse"))
    depot.held("2026-11-17", depot.turntable(depot.rounds("Ilsabet", 9)))
    up_to_date()
    assert set(people(book)) == {"ilse", "bram"}
    assert people(book)["ilse"].classes == 3


def test_a_mark_on_either_of_two_merged_entries_stays(
    book: Book, two_classes: None, change: Any
) -> None:
    change(MarkSet(athlete="ilsabet", mark="under 18", on=True))
    change(Merge(gone="ilsabet", kept="ilse"))
    assert people(book)["ilse"].marks == ("under 18",)
    change(MarkSet(athlete="bram", mark="newcomer", on=True))
    change(MarkSet(athlete="bram", mark="newcomer", on=False))
    assert people(book)["bram"].marks == ()


def test_every_change_can_be_taken_back_and_leaves_the_book_as_it_was(
    depot: Any, book: Book, two_classes: None, change: Any, up_to_date: Any
) -> None:
    before = contents(book)
    change(Rename(athlete="ilse", name="Ilse B"))
    change(Merge(gone="ilsabet", kept="ilse"))
    change(MarkSet(athlete="bram", mark="under 18", on=True))
    change(imported("Odell", "9+0", 9_000_000))
    assert contents(book) != before
    for kind in ("import", "mark", "merge", "rename"):
        taken_back, _ = take_back(depot.folder, NOW)
        assert taken_back.change == kind
        up_to_date()
    assert contents(book) == before
    with pytest.raises(NoSuchChangeError, match="no change to take back"):
        take_back(depot.folder, NOW)


def test_made_anew_with_all_changes_it_is_the_same_byte_for_byte(
    book: Book, two_classes: None, change: Any
) -> None:
    change(Rename(athlete="ilse", name="Ilse B"))
    change(imported("Odell", "9+0", 9_000_000))
    change(Merge(gone="ilsabet", kept="ilse"), Merge(gone="imported-odell", kept="bram"))
    step_by_step = contents(book)
    emptied(book)
    catch_up(book, 0)
    assert contents(book) == step_by_step


def test_an_imported_name_stands_until_a_class_says_another(
    depot: Any, book: Book, change: Any, up_to_date: Any
) -> None:
    change(imported("Odell", "9+0", 9_000_000))
    odell = people(book)["imported-odell"]
    assert (odell.name, odell.classes, odell.last_day) == ("Odell", 0, "")
    lane = depot.rounds("Odell S", 7, members=["imported-odell"])
    depot.held("2026-11-17", depot.turntable(lane))
    up_to_date()
    odell = people(book)["imported-odell"]
    assert (odell.name, odell.classes) == ("Odell S", 1)


def test_a_torn_last_line_is_left_out_and_a_damaged_one_within_is_said(depot: Any) -> None:
    write_down(depot.folder, [Rename(athlete="ilse", name="Ilse B")], NOW)
    path = depot.folder / "changes.jsonl"
    whole = path.read_bytes()
    path.write_bytes(whole + b'{"n": 2, "at"')
    assert len(read_changes(depot.folder).lines) == 1
    room, line, _ = whole.split(b"\n")
    path.write_bytes(b"\n".join((room, b"no line", line, b"")))
    with pytest.raises(ChangesDamagedError, match=r"changes.jsonl:2: this line can't be read"):
        read_changes(depot.folder)
