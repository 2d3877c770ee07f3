"""Rooms that share a book on a server: people of one name or one id stay two, unless merged."""

from collections.abc import Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

import pytest

from classclock.book.asking.people_reading import in_files, people_called, remembered
from classclock.book.asking.reading_bests import read_own_bests
from classclock.book.goals.table import standing_goals
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.lifted import lift_bests
from classclock.book.tables.opening import Book, open_book
from classclock.book.tables.queries import all_athletes, best_rows, days_attended, find, own_people
from classclock.commands.command_line import main
from tests.books_on_each_storage import emptied
from tests.depot_classes import DepotClasses

LATER = datetime.fromisoformat("2026-12-24T18:30:00+01:00")


class Room:
    """A club's folder, and its view of the book."""

    def __init__(self, folder: Path) -> None:
        self.club = DepotClasses(folder)
        self.book = open_book(folder)

    @property
    def name(self) -> str:
        return self.book.room

    def held(
        self, day: str, *lanes: dict[str, Any], lifted: tuple[dict[str, Any], ...] = ()
    ) -> None:
        pieces = [self.club.turntable(*lanes), *([self.club.squats(*lifted)] if lifted else [])]
        self.club.held(day, *pieces)
        self.catch_up()

    def catch_up(self) -> None:
        catch_up(self.book, 0)

    def says(self, *words: str) -> int:
        return main([*words, "--club", str(self.club.folder)])

    def names(self) -> list[tuple[str, str]]:
        with self.book.reading() as connection:
            return [(one.id, one.name) for one in all_athletes(connection)]

    def best(self, athlete: str) -> list[str]:
        with self.book.reading() as connection:
            found = best_rows(connection, [athlete]).get((athlete, "turntable"), ())
        return [best.result.score for best in found]

    def aims(self, athlete: str) -> list[str]:
        """What an athlete works towards."""
        with self.book.reading() as connection:
            return [one.score for one in standing_goals(connection, [athlete]).get(athlete, ())]

    def own_aims(self, ident: str) -> list[str]:
        """The same as a class of this room has it, on the turntable."""
        bests = read_own_bests(self.club.folder, [ident], ["turntable"], LATER)
        every = bests.goals.get((ident, "turntable"), ())
        return [goal.score for goal in every if not goal.until]

    def own_best(self, ident: str) -> list[str]:
        """What a class of this room races against."""
        bests = read_own_bests(self.club.folder, [ident], ["turntable"], LATER)
        return [result.score for result in bests.history[ident, "turntable"]]


@pytest.fixture
def rooms(storage: str, tmp_path: Path) -> Iterator[tuple[Room, Room]]:
    """Two rooms, in each of which one called Max did a piece, recorded under one id."""
    if storage == "sqlite":
        pytest.skip("a file belongs to one room")
    hall, shed = Room(tmp_path / "hall"), Room(tmp_path / "shed")
    hall.held(
        "2026-11-03",
        hall.club.rounds("Max", 7, 12),
        lifted=(hall.club.lifted("Max", "60 kg"),),
    )
    shed.held("2026-11-10", shed.club.rounds("Max", 8, 3), shed.club.rounds("Noor", 5))
    yield hall, shed
    hall.book.close()
    shed.book.close()


def test_people_of_one_name_and_one_id_are_two_athletes(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    assert hall.names() == [
        ("max", "Max"),
        (f"{shed.name}/max", "Max"),
        (f"{shed.name}/noor", "Noor"),
    ]
    assert shed.names() == [("max", "Max"), (f"{hall.name}/max", "Max"), ("noor", "Noor")]
    assert (hall.best("max"), shed.best("max")) == (["7+12"], ["8+3"])
    assert hall.best(f"{shed.name}/max") == ["8+3"]
    assert (hall.own_best("max"), shed.own_best("max")) == (["7+12"], ["8+3"])
    with shed.book.reading() as connection:
        assert lift_bests(connection, "max") == ()
        assert days_attended(connection, f"{hall.name}/max", "2026-01-01") == ("2026-11-03",)


def test_a_name_means_somebody_of_the_room_that_asks_and_an_id_whom_it_says(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms
    with hall.book.reading() as connection:
        assert [one.id for one in find(connection, "max")] == ["max"]
        assert [one.id for one in find(connection, "Noor")] == [f"{shed.name}/noor"]
        assert [one.id for one in find(connection, f"{shed.name}/max")] == [f"{shed.name}/max"]


def test_who_is_typed_in_a_room_is_never_somebody_of_another(rooms: tuple[Room, Room]) -> None:
    hall, _ = rooms
    for known in (remembered(hall.club.folder), in_files(hall.club.folder)):
        assert [(one.id, one.name) for one in known] == [("max", "Max")]
        max_, noor = people_called(("Max", "Noor"), known)
        assert max_.id == "max"
        assert noor.id != "noor"


def test_a_merge_joins_the_rooms_and_taking_it_back_parts_them(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    before = [contents(room.book) for room in rooms]
    assert hall.says("book", "merge", "Max", f"{shed.name}/max") == 0
    hall.catch_up()
    assert hall.names() == [(f"{shed.name}/max", "Max"), (f"{shed.name}/noor", "Noor")]
    assert shed.best("max") == ["8+3"]
    assert hall.own_best("max") == ["7+12", "8+3"] == shed.own_best("max")
    for room, ident in ((hall, "max"), (shed, "max")):
        known = {one.name: one for one in remembered(room.club.folder)}["Max"]
        assert (known.id, known.classes) == (ident, 2)
    with shed.book.reading() as connection:
        assert [one.load for one in lift_bests(connection, "max")] == ["60 kg"]
    hall.held("2026-11-17", hall.club.rounds("Max", 9))
    assert shed.best("max") == ["9+0"]
    (hall.club.folder / "results" / "2026-11-17-1830-depot.json").unlink()
    assert hall.says("book", "undo") == 0
    assert [contents(room.book) for room in rooms] == before


def contents(book: Book) -> dict[str, list[dict[str, Any]]]:
    with book.reading() as connection:
        return book_contents(connection)


def test_a_merge_of_two_with_one_name_says_who_the_other_is(
    rooms: tuple[Room, Room], capsys: pytest.CaptureFixture[str]
) -> None:
    hall, shed = rooms
    assert hall.says("book", "merge", "Max", "Max") == 2
    said = capsys.readouterr().err
    assert said == f"both names are one entry already; Max of another room is {shed.name}/max\n"


def test_a_name_of_another_room_may_be_given_here_too(rooms: tuple[Room, Room]) -> None:
    hall, _ = rooms
    assert hall.says("book", "rename", "Max", "Noor") == 0
    hall.catch_up()
    with hall.book.reading() as connection:
        assert [one.name for _, one in own_people(connection)] == ["Noor"]


def test_marks_stay_in_the_room_that_made_them(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    assert hall.says("book", "mark", "Max", "under-18") == 0
    hall.catch_up()
    with shed.book.reading() as connection:
        marks = {one.id: one.marks for one in all_athletes(connection)}
    assert marks == {f"{hall.name}/max": ("under 18",), "max": (), "noor": ()}


def test_a_goal_set_in_one_room_is_worked_towards_in_the_other_once_they_are_one(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms
    assert hall.says("goal", "Max", "turntable", "9") == 0
    assert (hall.aims("max"), shed.aims("max"), hall.own_aims("max")) == (["9+0"], [], ["9+0"])
    assert hall.says("book", "merge", "Max", f"{shed.name}/max") == 0
    assert shed.aims("max") == ["9+0"]
    assert hall.own_aims("max") == ["9+0"] == shed.own_aims("max")
    assert shed.says("goal", "Max", "turntable", "10") == 0
    assert hall.own_aims("max") == ["10+0"]
    for room in rooms:  # made anew, each its own part
        assert room.says("book", "rebuild") == 0
        assert room.own_aims("max") == ["10+0"]
    assert shed.says("book", "undo") == 0
    assert hall.own_aims("max") == ["9+0"]
    assert shed.says("book", "erase", "max", "--yes") == 0
    assert hall.aims(f"{shed.name}/max") == []
    assert hall.says("chart") == 0  # carries the order out: the line goes from its changes too
    assert '"goal"' not in (hall.club.folder / "changes.jsonl").read_text("utf-8")


def test_an_import_makes_somebody_new_of_who_is_known_to_another_room_only(
    rooms: tuple[Room, Room], tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    hall, shed = rooms
    sheet = tmp_path / "old.csv"
    sheet.write_text(
        "name,benchmark,score,date\nNoor,Turntable,9+1,2020-02-01\nMax,Turntable,6+0,2020-02-01\n"
    )
    assert hall.says("book", "import", str(sheet)) == 0
    assert "New in the book: Noor." in capsys.readouterr().out
    assert hall.says("book", "import", str(sheet)) == 0
    assert "2 rows left out: the book has them." in capsys.readouterr().out
    assert shed.best("noor") == ["5+0"]
    assert hall.best("max") == ["7+12", "6+0"]
    assert sorted(name for _, name in hall.names()) == ["Max", "Max", "Noor", "Noor"]


def test_erasing_in_one_room_leaves_who_has_that_name_in_another(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    files = {path: path.read_bytes() for path in shed.club.folder.rglob("*.json")}
    assert hall.says("book", "erase", "Max", "--yes") == 0
    assert shed.best("max") == ["8+3"]
    emptied(shed.book)
    shed.catch_up()
    assert shed.names() == [("max", "Max"), ("noor", "Noor")]
    assert {path: path.read_bytes() for path in files} == files


def test_each_room_makes_only_its_own_part_anew(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    assert hall.says("book", "merge", "Max", f"{shed.name}/max") == 0
    hall.catch_up()
    both = contents(hall.book)
    emptied(hall.book)
    assert shed.best("max") == ["8+3"]
    assert shed.own_best("max") == ["8+3"]
    hall.catch_up()
    assert contents(hall.book) == both
    emptied(shed.book)
    assert hall.own_best("max") == ["7+12"]
    shed.catch_up()
    assert contents(hall.book) == both
