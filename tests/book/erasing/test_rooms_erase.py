"""Somebody is erased in one room of a shared book: every other carries it out at its next contact.

Bytes are searched for in both folders and in the files of the server's tables.
"""

import json
from datetime import datetime
from pathlib import Path

import pytest
from sqlalchemy import text

from classclock.book.changing import write_down
from classclock.book.files.changes import Carried, Erasure, MarkSet, Rename
from classclock.book.files.event_lines import event_line
from classclock.book.files.held_file import HeldFile
from classclock.book.files.journal import Anchor
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.tables.keeping import kept_book
from classclock.book.tables.opening import open_book
from classclock.book.tables.queries import all_athletes
from classclock.book.tables.schema import VERSION
from classclock.book.tables.server_tables import schema_name
from classclock.commands.command_line import main
from classclock.tally import events as ev
from classclock.tally.lanes import Person
from tests.depot_classes import DepotClasses

WHEN = datetime.fromisoformat("2026-11-25T12:00:00+01:00")
WALL = "2026-11-10T18:30:00.000+01:00"


class Room:
    """A club's folder; each command line is a contact with the book."""

    def __init__(self, folder: Path, capsys: pytest.CaptureFixture[str]) -> None:
        self.club, self.folder, self._capsys = DepotClasses(folder), folder, capsys
        self.status = 0

    @property
    def name(self) -> str:
        return read_changes(self.folder).room

    def says(self, *words: str) -> str:
        self._capsys.readouterr()
        self.status = main([*words, "--club", str(self.folder)])
        said = self._capsys.readouterr()
        return said.out + said.err

    def names_in_files(self, *names: str) -> list[str]:
        wanted = [name.lower().encode() for name in names]
        return sorted(
            str(path.relative_to(self.folder))
            for path in self.folder.rglob("*")
            if path.is_file() and any(name in path.read_bytes().lower() for name in wanted)
        )


@pytest.fixture
def rooms(storage: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]) -> tuple[Room, Room]:
    """Cato came to both rooms, and was merged; Ilse came with her, in each room another Ilse."""
    if storage == "sqlite":
        pytest.skip("a file belongs to one room")
    hall, shed = Room(tmp_path / "hall", capsys), Room(tmp_path / "shed", capsys)
    for room, ident, day in ((hall, "x7", "03"), (shed, "y8", "10")):
        lanes = (
            room.club.rounds("Cato", 7, members=[ident], note="corrected: Cato called six"),
            room.club.rounds("Ilse", 8, rank=2, note="corrected: as Cato saw it"),
        )
        lifts = room.club.squats(room.club.lifted("Cato", "60 kg", members=[ident]))
        room.club.held(f"2026-11-{day}", room.club.turntable(*lanes), lifts)
        room.says("chart")
    write_down(shed.folder, [Rename(athlete="y8", name="Cato Lind")], WHEN)
    write_down(shed.folder, [MarkSet(athlete="y8", mark="newcomer", on=True)], WHEN)
    shed.says("chart", "--html", str(shed.folder / "chart.html"))
    shed.says("book", "export", str(shed.folder / "out"))
    hall.says("book", "merge", f"{shed.name}/y8", "x7")
    shed.says("chart")
    return hall, shed


def table_bytes(folder: Path) -> bytes:
    """All that the files of the book's tables and their indexes hold, once they are written."""
    book = open_book(folder)
    asked = text(
        "SELECT pg_relation_filepath(c.oid) FROM pg_class c"
        " WHERE c.relkind IN ('r', 'i', 't') AND (c.relnamespace = :schema ::regnamespace"
        " OR c.oid IN (SELECT reltoastrelid FROM pg_class"
        " WHERE relnamespace = :schema ::regnamespace))"
    )
    with book.engine.connect() as connection:
        connection.execution_options(isolation_level="AUTOCOMMIT").execute(text("CHECKPOINT"))
        paths = connection.execute(asked, {"schema": schema_name(VERSION)}).scalars().all()
        read = text("SELECT pg_read_binary_file(:path)")
        found = [connection.execute(read, {"path": path}).scalar_one() for path in paths]
    book.close()
    assert len(found) > 8
    return b"".join(map(bytes, found))


def test_no_byte_is_left_in_either_folder_nor_in_the_servers_tables(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms
    assert hall.names_in_files("cato", "x7")
    assert shed.names_in_files("cato", "y8")
    assert b"Cato" in table_bytes(hall.folder)
    assert "Would be ordered of 1 other room" in hall.says("book", "erase", "Cato")
    said = hall.says("book", "erase", "Cato", "--yes")
    assert hall.status == 0
    assert "Ordered of 1 other room, each at its next contact with the book" in said
    assert not hall.names_in_files("cato", '"x7"')
    assert b"Cato" not in table_bytes(hall.folder)
    said = shed.says("load", "Cato")
    assert "somebody whom another room has erased is taken out here too" in said
    assert "no record" in said
    assert not shed.names_in_files("cato", "lind", '"y8"')
    raw = table_bytes(hall.folder)
    assert b"Cato" not in raw
    assert b"Ilse" in raw
    for room in rooms:
        names = [row["name"] for row in json.loads(room.says("chart", "--json"))["rows"]]
        assert names == ["Ilse", "Ilse"]
        assert "Cato" not in room.says("report")


def test_what_a_server_has_to_keep_for_somebody_who_reads_is_said(
    rooms: tuple[Room, Room], monkeypatch: pytest.MonkeyPatch
) -> None:
    hall, _ = rooms
    monkeypatch.setattr("classclock.book.tables.server_files.TRIES", 1)
    monkeypatch.setattr("classclock.book.tables.server_files.LOCK_WAIT_MS", 1)
    with kept_book(hall.folder, 0) as (book, _), book.engine.connect() as reads:
        reads.execution_options(isolation_level="REPEATABLE READ").execute(text("SELECT 1"))
        said = hall.says("book", "erase", "Cato", "--yes")
    assert "The server's tables were in use: what was deleted stays in their files" in said
    assert hall.status == 0


def test_a_book_of_a_later_classclock_on_the_server_is_named(rooms: tuple[Room, Room]) -> None:
    hall, _ = rooms
    later = schema_name(VERSION + 1)
    with kept_book(hall.folder, 0) as (book, _), book.engine.begin() as connection:
        connection.execute(text(f"CREATE SCHEMA {later}"))
    for more in ([], ["--yes"]):
        said = hall.says("book", "erase", "Cato", *more)
        assert hall.status == 1
        assert f"the server's book {later} is of a later one, and hears of it then\n" in said


def test_an_order_holds_no_name_and_its_digests_go_when_all_have_carried_it_out(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms

    def order() -> Erasure:
        return next(x for x in read_changes(hall.folder).lines if isinstance(x, Erasure))

    hall.says("book", "erase", "Cato", "--yes")
    assert len(order().names) == 2  # Cato, and what the shed called her
    said = hall.says("book", "erase", "--status")
    assert hall.status == 1
    assert f"in hall {hall.name} (this room):\n  shed {shed.name}: not yet" in said
    shed.says("chart")
    done = [line for line in read_changes(shed.folder).lines if isinstance(line, Carried)]
    assert [(one.room, one.of, one.left) for one in done] == [(hall.name, order().n, ())]
    said = shed.says("book", "erase", "--status")
    assert shed.status == 0
    assert f"  shed {shed.name} (this room): carried out 20" in said
    hall.says("chart")
    assert order().names == ()
    assert json.loads(hall.says("book", "erase", "--status", "--json"))["orders"][0]["rooms"]


def test_it_is_carried_out_once(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    hall.says("book", "erase", "Cato", "--yes")
    shed.says("chart")
    before = (shed.folder / "changes.jsonl").read_bytes()
    assert "taken out" not in shed.says("chart")
    assert (shed.folder / "changes.jsonl").read_bytes() == before


def test_a_class_that_runs_comes_first(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    path = shed.folder / "journals" / "2026-11-25-1830-depot.jsonl"
    path.parent.mkdir(exist_ok=True)
    held = HeldFile.made(path)
    hall.says("book", "erase", "Cato", "--yes")
    shed.says("chart")
    assert shed.names_in_files("cato")
    assert "not yet" in shed.says("book", "erase", "--status")
    held.close()
    shed.says("chart")
    assert not shed.names_in_files("cato")
    assert b"Cato" not in table_bytes(shed.folder)


def test_a_disk_that_refuses_is_said_and_it_is_tried_again(
    rooms: tuple[Room, Room], monkeypatch: pytest.MonkeyPatch
) -> None:
    def refused(*_: object) -> None:
        raise OSError(28, "No space left on device", "results")

    hall, shed = rooms
    hall.says("book", "erase", "Cato", "--yes")
    with monkeypatch.context() as full:
        full.setattr("classclock.book.erasing.carrying.written_without", refused)
        said = shed.says("chart")
    assert "results: No space left on device: somebody whom another room has erased" in said
    assert shed.status == 0
    assert "not yet" in hall.says("book", "erase", "--status")
    shed.says("chart")
    assert not shed.names_in_files("cato")


def test_what_a_room_has_to_look_at_itself_is_named(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    plan = shed.folder / "plans" / "tuesday.toml"
    plan.parent.mkdir()
    plan.write_text('notes = ["Cato Lind: no jumps"]\n', "utf-8")
    called = shed.folder / "plans" / "cato.toml"
    called.write_text('title = "x"\n', "utf-8")
    torn = shed.folder / "results" / "2026-11-11-1830-depot.json"
    torn.write_text('{"people": [{"id": "y8", "name": "Cato"', "utf-8")
    hall.says("book", "erase", "Cato", "--yes")
    said = shed.says("chart")
    for path in ("plans/...", "plans/tuesday.toml", "results/2026-11-11-1830-depot.json"):
        assert f"stands in it: {path}\n" in said
    status = hall.says("book", "erase", "--status")
    assert "to be looked at by hand there: plans/..., plans/tuesday.toml, results/" in status
    assert plan.read_text("utf-8") == 'notes = ["Cato Lind: no jumps"]\n'


def test_notes_and_copies_of_a_room_where_only_the_name_is_known_lose_it(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms
    only_here = DepotClasses(hall.folder)
    only_here.held("2026-11-17", only_here.turntable(only_here.rounds("Jürg", 7)), time="19:30")
    hall.says("chart")
    shed.says("chart", "--csv", str(shed.folder / "board.csv"))
    path = shed.folder / "journals" / "2026-11-10-1830-depot.jsonl"
    path.parent.mkdir()
    opened = ev.ClassOpened(0, "d", "", "kg", (Person("ilse", "Ilse", "i"),), None)
    events: tuple[ev.Event, ...] = (opened, ev.Noted(1, "Jürg: keys"))
    lines = [event_line(event, number, WALL) for number, event in enumerate(events)]
    path.write_bytes(b"".join((Anchor("b", 0, 0, WALL).line(), *lines)))
    assert shed.names_in_files("J\u00fcrg", "J\\u00fcrg")
    hall.says("book", "erase", "Jürg", "--yes")
    shed.says("chart")
    assert not shed.names_in_files("J\u00fcrg", "J\\u00fcrg")
    assert b"erased: keys" in path.read_bytes()


def test_somebody_else_of_the_name_in_another_room_is_left_alone(
    rooms: tuple[Room, Room],
) -> None:
    hall, shed = rooms
    before = shed.names_in_files("ilse")
    said = hall.says("book", "erase", "Ilse", "--yes")
    assert f"of the same name, another person as far as is known: {shed.name}/ilse" in said
    shed.says("chart")
    assert shed.names_in_files("ilse") == before
    assert "Ilse 8+0" in shed.says("report")


def test_a_class_held_after_the_order_is_of_somebody_new(rooms: tuple[Room, Room]) -> None:
    hall, shed = rooms
    hall.says("book", "erase", "Cato", "--yes")
    again = shed.club.rounds("Cato", 9, members=["y8"])
    path = shed.club.held("2099-11-24", shed.club.turntable(again))
    shed.says("chart")
    assert b"Cato" in path.read_bytes()
    assert shed.names_in_files("cato") == sorted(
        (str(path.relative_to(shed.folder)), f"results/{path.stem}-turntable.csv")
    )
    with kept_book(shed.folder, 0) as (book, _), book.reading() as connection:
        assert [one.id for one in all_athletes(connection) if one.name == "Cato"] == ["y8"]
