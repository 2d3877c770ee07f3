"""Who is who: people that the club knows come back with their id, their key and their marks."""

from datetime import UTC, datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.known_people import KnownPerson
from classclock.book.asking.people_reading import (
    in_files,
    known_for,
    people_called,
    person_called,
    remember_marks,
    remembered,
)
from classclock.book.changing import write_down
from classclock.book.files.changes import MarkSet, Merge, Rename

NOW = datetime(2026, 11, 25, 9, tzinfo=UTC)
ILSE, BRAM = KnownPerson("7", "Ilse", "l", 9), KnownPerson("8", "Bram", "b", 2)


def test_a_known_name_brings_back_the_person_s_id_and_key() -> None:
    people = people_called(("bram", "Ilse"), (ILSE, BRAM))
    assert [(one.id, one.name, one.key) for one in people] == [
        ("8", "bram", "b"),
        ("7", "Ilse", "l"),
    ]


def test_somebody_new_gets_an_id_that_nobody_has_and_a_free_key() -> None:
    known = (*(ILSE, BRAM), KnownPerson("lena", "Lena K", "k", 1))
    drawn = iter(("lena", "7", "q2"))
    (ilse, lena) = people_called(("Ilse", "Lena"), known, lambda: next(drawn))
    assert ilse.key == "l"
    assert (lena.id, lena.key) == ("q2", "e")


def test_of_two_known_by_one_name_neither_is_meant() -> None:
    twins = (ILSE, KnownPerson("9", "Ilse", "i"))
    assert person_called("Ilse", twins, (), lambda: "q2").id == "q2"


def test_who_comes_more_often_keeps_the_key_that_two_have() -> None:
    often, seldom = KnownPerson("1", "Noor", "n", 30), KnownPerson("2", "Nils", "n", 3)
    nils, noor = people_called(("Nils", "Noor"), (often, seldom))
    assert (noor.key, nils.key) == ("n", "i")


@pytest.mark.parametrize("names", [("Max", "max!"), ("Мария", "Иван", "李"), ("Zoë", "Zoe")])
def test_two_who_are_new_are_two_however_alike_their_names_are_written(
    names: tuple[str, ...],
) -> None:
    people = people_called(names, ())
    assert len({one.id for one in people}) == len(names)
    again = [KnownPerson(one.id, one.name, one.key) for one in people]
    assert [one.id for one in people_called(names, again)] == [one.id for one in people]


@pytest.mark.parametrize("read", [in_files, remembered])
def test_files_and_book_name_the_same_people(depot: Any, read: Any) -> None:
    depot.save(depot.document("2026-11-03", depot.turntable(depot.rounds("Ilse", 7))))
    depot.save(depot.document("2026-11-10", depot.turntable(depot.rounds("Bram", 6))))
    depot.save(depot.document("2026-11-17", depot.turntable(depot.rounds("Ilze", 7))))
    changes = (
        Merge(gone="ilze", kept="ilse"),
        Rename(athlete="bram", name="Bram V"),
        MarkSet(athlete="bram", mark="off the wall", on=True),
        Rename(athlete="ilse", name="Ilse D"),
    )
    write_down(depot.folder, changes, NOW)
    known = read(depot.folder)
    assert [(one.id, one.name, one.marks) for one in known] == [
        ("ilse", "Ilse D", ()),
        ("bram", "Bram V", ("off the wall",)),
    ]
    (bram,) = people_called(("Bram V",), known)
    assert bram.off_the_wall


@pytest.mark.parametrize(("name", "ident"), [("Bram", "bram"), ("ILSE", "ilse"), ("Tuva", "q2")])
def test_who_last_came_long_ago_is_found_in_the_book(
    depot: Any, monkeypatch: pytest.MonkeyPatch, name: str, ident: str
) -> None:
    for module in ("known_people", "people_reading"):
        monkeypatch.setattr(f"classclock.book.asking.{module}.MOST_CLASSES", 1)
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-10", depot.turntable(depot.rounds("Bram", 6)))
    (one,) = people_called([name], known_for(depot.folder, [name]), lambda: "q2")
    assert one.id == ident


def test_the_book_is_left_alone_where_the_files_have_every_name(depot: Any) -> None:
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    known_for(depot.folder, ["ilse"])
    known_for(depot.folder, ["Tuva"])  # there are no older files in which she could stand
    assert not (depot.folder / "book.sqlite").exists()


def test_asking_who_is_known_leaves_an_empty_folder_as_it_is(tmp_path: Path) -> None:
    assert in_files(tmp_path) == ()
    assert list(tmp_path.iterdir()) == []


def test_marks_set_before_a_class_come_back_with_the_next_one(depot: Any) -> None:
    depot.save(depot.document("2026-11-03", depot.turntable(depot.rounds("Ilse", 7))))
    assert remember_marks(depot.folder, {("ilse", "off the wall"): True})
    assert [one.marks for one in remembered(depot.folder)] == [("off the wall",)]
    assert remember_marks(depot.folder, {("ilse", "off the wall"): False})
    assert [one.marks for one in remembered(depot.folder)] == [()]


def test_marks_that_can_t_be_written_down_stop_nothing(tmp_path: Path) -> None:
    (tmp_path / "changes.jsonl").write_text("no change at all\n")
    assert not remember_marks(tmp_path, {("ilse", "under 18"): True})


COMPOSED, APART = "Zo\u00eb", "Zoe\u0308"


@pytest.mark.parametrize("read", [in_files, remembered])
@pytest.mark.parametrize("typed", [COMPOSED, APART, " ZOE\u0308 "])
def test_a_name_is_known_in_whichever_form_it_is_typed(depot: Any, read: Any, typed: str) -> None:
    lane = depot.rounds(APART, 7, members=["q7"])
    depot.held("2026-11-03", depot.turntable(lane), people=[person("q7", APART)])
    (zoe,) = people_called([typed], read(depot.folder))
    assert zoe.id == "q7"


def test_who_is_recorded_in_both_is_found_as_typed_and_no_third_one_is_made() -> None:
    known = (KnownPerson("q7", APART, "z"), KnownPerson("q8", COMPOSED, "o"))
    assert people_called([COMPOSED], known)[0].id == "q8"
    assert people_called([APART], known)[0].id == "q7"


def test_the_files_have_every_name_in_whichever_form(
    depot: Any, monkeypatch: pytest.MonkeyPatch
) -> None:
    for module in ("known_people", "people_reading"):
        monkeypatch.setattr(f"classclock.book.asking.{module}.MOST_CLASSES", 1)
    depot.held("2026-11-03", depot.turntable(depot.rounds("Ilse", 7)))
    depot.held("2026-11-10", depot.turntable(depot.rounds(APART, 7)))
    known_for(depot.folder, [COMPOSED])
    assert not (depot.folder / "book.sqlite").exists()


def person(ident: str, name: str) -> dict[str, str]:
    return {"id": ident, "name": name, "key": "z"}
