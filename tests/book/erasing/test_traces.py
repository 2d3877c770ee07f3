"""Nothing is left of somebody in what was undone, under other names, in file names, in copies."""

from collections.abc import Callable
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest
from msgspec.json import decode, encode
from msgspec.structs import replace

from classclock.book.changing import take_back, write_down
from classclock.book.erasing.erasing import erase
from classclock.book.erasing.known_under import only_in_changes
from classclock.book.erasing.reach import Reach
from classclock.book.files.changes import Rename
from classclock.book.files.copies import write_copy
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.tables.book_file import FILE
from classclock.book.tables.catching_up import CaughtUp, catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import find
from classclock.drafts.plan_being_written import KeptDraft
from tests.books_on_each_storage import NOW, emptied

WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")


def score(name: str, ident: str) -> ImportedScore:
    return ImportedScore(
        athlete=ident,
        name=name,
        benchmark="turntable",
        score="7+0",
        kind="rounds",
        worth=7_000_000,
        day="2020-01-01",
    )


def files_with(folder: Path, *names: str) -> list[str]:
    """Which files hold one of these names in their bytes, or are called so, in whatever case."""
    wanted = [name.lower().encode() for name in names]
    return sorted(
        path.name
        for path in folder.rglob("*")
        if path.is_file()
        and any(name in path.name.lower().encode() + path.read_bytes().lower() for name in wanted)
    )


@pytest.fixture
def without(book: Book, up_to_date: Callable[[], CaughtUp]) -> Callable[..., Reach]:
    def run(name: str, answers: dict[int, bool] | None = None) -> Reach:
        up_to_date()
        with book.reading() as connection:
            (athlete,) = find(connection, name)
        return erase(book, athlete, WHEN, answers)

    return run


def test_an_import_that_was_undone_keeps_no_name(
    depot: Any, book: Book, without: Callable[..., Reach], up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Cato", 7), depot.rounds("Ilse", 8)))
    imported = Import(file="old.csv", scores=(score("CATO", "bcdfghjkmn"), score("Ilse", "ilse")))
    write_down(depot.folder, [imported, Rename(athlete="ilse", name="Cato")], WHEN)
    take_back(depot.folder, WHEN)
    take_back(depot.folder, WHEN)
    up_to_date()
    assert files_with(depot.folder, "cato")
    without("Cato")
    assert not files_with(depot.folder, "cato")
    emptied(book)
    catch_up(book, NOW)
    assert not files_with(depot.folder, "cato")
    (kept, undone) = [
        one for one in read_changes(depot.folder).lines if one.change in ("import", "undo")
    ]
    assert isinstance(kept, Import)
    assert [one.name for one in kept.scores] == ["Ilse"]
    with book.reading() as connection:
        assert len(book_contents(connection)["results"]) == 1  # it is still undone
    assert undone.n == 4


def test_whom_only_an_undone_import_names_can_be_erased(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 8)))
    write_down(depot.folder, [Import(file="a.csv", scores=(score("Cato", "cato-1"),))], WHEN)
    take_back(depot.folder, WHEN)
    up_to_date()
    who = only_in_changes(read_changes(depot.folder), "cato")
    assert who is not None
    erase(book, who, WHEN)
    assert not files_with(depot.folder, "cato")
    assert only_in_changes(read_changes(depot.folder), "cato") is None


def test_what_was_written_under_another_name_goes_too(
    depot: Any, without: Callable[..., Reach], tmp_path: Path
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Cato", 7, members=["q7"])))
    for name in ("Cato Lind", "Kata"):
        write_down(depot.folder, [Rename(athlete="q7", name=name)], WHEN)
    for number, text in enumerate((b"<p>Cato</p>", b"<p>Cato  Lind</p>", b"<p>Kata</p>", b"-")):
        write_copy(depot.folder, tmp_path / "out" / f"{number}.html", text)
    write_copy(depot.folder, tmp_path / "out" / "kata_lind.html", b"<p>a page</p>")
    without("Kata")
    assert not files_with(tmp_path, "cato", "kata", "lind")
    assert (tmp_path / "out" / "3.html").exists()


def test_a_reason_that_came_with_another_clubs_tables_goes_unless_it_is_kept(
    depot: Any, without: Callable[..., Reach]
) -> None:
    def reason(name: str, answers: dict[int, bool] | None = None) -> str:
        depot.held("2026-11-03", depot.turntable(depot.rounds(name, 7)))
        note = f"late; corrected: {name} saw it"
        came = replace(score("Ilse", "ilse"), note=note)
        write_down(depot.folder, [Import(file="results.csv", scores=(came,))], WHEN)
        (mention,) = without(name, answers).mentions
        assert (mention.kind, mention.text) == ("reason", f"{name} saw it")
        lines = [one for one in read_changes(depot.folder).lines if isinstance(one, Import)]
        return str(lines[-1].scores[0].note)

    assert reason("Cato") == "late; corrected: erased saw it"
    assert reason("Maud", {1: False}) == "late; corrected: Maud saw it"


def test_the_file_name_of_an_import_goes_unless_it_is_kept(
    depot: Any, without: Callable[..., Reach]
) -> None:
    def imported(name: str) -> list[str]:
        depot.held("2026-11-03", depot.turntable(depot.rounds(name, 7)))
        of_hers = Import(file=f"{name}_old scores.csv", scores=(score("Ilse", "ilse"),))
        write_down(depot.folder, [of_hers], WHEN)
        answers = {1: False} if name == "Maud" else None
        reach = without(name, answers)
        assert [one.kind for one in reach.mentions] == ["file name"]
        lines = read_changes(depot.folder).lines
        return [line.file for line in lines if isinstance(line, Import)]

    assert imported("Cato") == ["erased.csv"]
    assert imported("Maud") == ["erased.csv", "Maud_old scores.csv"]


def test_a_plan_and_a_draft_are_named_and_stay_unless_the_coach_wants_it_otherwise(
    depot: Any, without: Callable[..., Reach]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Cato", 7), depot.rounds("Maud", 8)))
    text = 'title = "Tuesday"\nnotes = ["Cato: no jumps", "Maud: no jumps"]\n'
    plan = depot.folder / "plans" / "tuesday.toml"
    plan.parent.mkdir()
    plan.write_text(text, "utf-8")
    draft = depot.folder / "drafts" / "new.json"
    draft.parent.mkdir()
    draft.write_bytes(encode(KeptDraft("# for Cato", "2026-11-03T12:00:00", text.encode())))
    found = [(one.kind, one.goes, one.text) for one in without("Cato").mentions]
    line = 'notes = ["Cato: no jumps", "Maud: no jumps"]'
    assert found == [("plan", False, "# for Cato"), ("plan", False, line)]
    assert plan.read_text("utf-8") == text
    without("Maud", {1: True})
    changed = text.replace("Maud", "erased")
    assert plan.read_text("utf-8") == changed
    assert decode(draft.read_bytes(), type=KeptDraft).data == changed.encode()


def test_a_file_that_isnt_ours_is_named_and_left(depot: Any, without: Callable[..., Reach]) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Zoë", 7)))
    lists = depot.folder / "lists"
    lists.mkdir()
    for name, text in (("phone.txt", "zoë 0123"), ("zoe-b.txt", "-"), ("other.txt", "Zoey")):
        (lists / name).write_text(text, "utf-8")
    assert without("Zoë").others == [lists / "phone.txt", lists / "zoe-b.txt"]


def test_a_note_of_a_class_in_which_somebody_else_had_the_name_stays(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp]
) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Noor", 7, members=["noor-1"])))
    note = "corrected: Noor called eight"
    depot.held("2026-11-10", depot.turntable(depot.rounds("Noor", 8, members=["n-2"], note=note)))
    up_to_date()
    with book.reading() as connection:
        first = next(one for one in find(connection, "Noor") if one.id == "noor-1")
    reach = erase(book, first, WHEN)
    assert [(one.goes, one.text) for one in reach.mentions] == [(False, "Noor called eight")]


def test_the_database_holds_no_byte_of_them(
    depot: Any, storage: str, book: Book, without: Callable[..., Reach]
) -> None:
    if storage != "sqlite":
        pytest.skip("a server's files are searched where a room is on one")
    for day in range(1, 29):
        depot.held(
            f"2026-10-{day:02}",
            depot.turntable(depot.rounds("Cato", day, note="x" * 500), depot.rounds("Ilse", day)),
        )
    without("Ilse")
    kept = sorted(path.name for path in depot.folder.iterdir() if FILE in path.name)
    assert kept == [FILE]  # no journal or log of the database beside it
    raw = (depot.folder / FILE).read_bytes()
    assert b"Cato" in raw
    assert b"Ilse" not in raw
    assert b"ilse" not in raw


def test_an_erasure_that_was_cut_off_can_be_begun_again(
    depot: Any, book: Book, up_to_date: Callable[[], CaughtUp], monkeypatch: pytest.MonkeyPatch
) -> None:
    """The power fails behind the last file and before the changes; the book then catches up."""
    depot.held("2026-11-03", depot.turntable(depot.rounds("Cato", 7, members=["q7"])))
    write_down(depot.folder, [Rename(athlete="q7", name="Kata")], WHEN)
    up_to_date()
    with book.reading() as connection:
        (kata,) = find(connection, "Kata")
    with monkeypatch.context() as cut_off:
        cut_off.setattr("classclock.book.erasing.erasing._forget_in_changes", _no_power)
        with pytest.raises(OSError, match="no power"):
            erase(book, kata, WHEN)
    up_to_date()
    with book.reading() as connection:
        assert find(connection, "Kata") == ()
    assert files_with(depot.folder, "kata")
    again = only_in_changes(read_changes(depot.folder), "kata")
    assert again is not None
    erase(book, again, WHEN)
    assert not files_with(depot.folder, "kata", "cato")


def _no_power(*_: object) -> None:
    raise OSError("no power")


def test_a_name_that_was_given_by_mistake_and_taken_back_stays_the_others(
    depot: Any, without: Callable[..., Reach]
) -> None:
    note = "corrected: Ilse called six"
    path = depot.held(
        "2026-11-03",
        depot.turntable(depot.rounds("Cato", 7, note=note), depot.rounds("Ilse", 8)),
    )
    write_down(depot.folder, [Rename(athlete="cato", name="Ilse")], WHEN)
    take_back(depot.folder, WHEN)
    assert without("Cato").mentions == ()
    assert note in path.read_text("utf-8")
