"""Two rooms whose classes end at once, and a server that goes and comes: the book has each once."""

import json
import os
import re
from collections.abc import Iterator
from concurrent.futures import ThreadPoolExecutor
from pathlib import Path
from typing import Any

import pytest

from classclock.book.tables.book_error import BookError
from classclock.book.tables.book_lock import BookHeldError, book_lock
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.contents import book_contents
from classclock.book.tables.keeping import kept_book
from classclock.book.tables.opening import open_book
from classclock.commands.command_line import main
from classclock.records.document import ResultsDocument
from tests.depot_classes import DepotClasses
from tests.own_server import OwnServer

CLASSES = 40
NOW = 0
ROOMS = {"hall": ("Ilse", "Bram", "Noor"), "shed": ("Agda", "Piet", "Mei")}


def documents(club: DepotClasses, room: str) -> Iterator[ResultsDocument]:
    """The room's half of the classes, an hour after the other room's."""
    time = "18:30" if room == "hall" else "19:30"
    first, second, third = ROOMS[room]
    for day in range(1, CLASSES // 2 + 1):
        turntable = club.turntable(
            club.rounds(first, day % 7 + 3, day % 5), club.rounds(second, day % 4 + 5)
        )
        squats = club.squats(club.lifted(third, f"{60 + day} kg"))
        yield club.document(f"2026-11-{day:02}", turntable, squats, time=time)


def hold(club: DepotClasses, document: ResultsDocument) -> str:
    """One class: its results are saved, then the book is asked, whether it is there or not."""
    club.save(document)
    try:
        with kept_book(club.folder, NOW):
            return ""
    except BookError as error:
        return str(error)


def contents(folder: Path) -> dict[str, list[str]]:
    """All that the book knows, whichever room asks, and whichever room it is of."""
    book = open_book(folder)
    with book.reading() as connection:
        found = book_contents(connection)
    book.close()
    return {table: sorted(map(_without_rooms, rows)) for table, rows in found.items()}


def _without_rooms(row: dict[str, Any]) -> str:
    return re.sub(r"\b[0-9a-f]{16}/", "", json.dumps(row, sort_keys=True))


def test_nothing_is_lost_and_nothing_is_twice_whatever_becomes_of_the_server(
    own_server: OwnServer, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setenv("CLASSCLOCK_BOOK", own_server.address())
    clubs = {room: DepotClasses(tmp_path / room) for room in ROOMS}
    classes = [(clubs[room], one) for room in ROOMS for one in documents(clubs[room], room)]
    # Every other one of the list, so that both rooms are at it at every moment.
    parts = [classes[first::3] for first in range(3)]
    assert len(classes) == CLASSES
    with ThreadPoolExecutor(8) as threads:
        assert {*threads.map(lambda held: hold(*held), parts[0])} == {""}
        under_way = [threads.submit(hold, *held) for held in parts[1]]
        own_server.stop()
        said = {one.result() for one in under_way}
        said |= {hold(*held) for held in parts[2][:3]}
        own_server.start()
        assert {*threads.map(lambda held: hold(*held), parts[2][3:])} == {""}
    for words in said - {""}:
        assert "can't be reached" in words
        assert words.endswith(": classes run on, and their results go in when it is back")
    assert said != {""}
    for club in clubs.values():
        with kept_book(club.folder, NOW):
            pass
    seen_in = [contents(club.folder) for club in clubs.values()]
    monkeypatch.delenv("CLASSCLOCK_BOOK")
    one_room = DepotClasses(tmp_path / "one-room")
    for _, document in classes:
        one_room.save(document)
    book = open_book(one_room.folder)
    assert catch_up(book, NOW).classes == CLASSES
    book.close()
    assert seen_in == [contents(one_room.folder)] * 2


def test_a_room_that_is_taken_in_by_batches_is_the_same_as_one_taken_in_at_once(
    storage: str, depot: DepotClasses, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for document in documents(depot, "hall"):
        depot.save(document)
    book = open_book(depot.folder)
    catch_up(book, NOW)
    at_once = contents(depot.folder)
    for name, few in (("_FEW", 2), ("_FILES_AT_ONCE", 3), ("_ATHLETES_AT_ONCE", 2)):
        monkeypatch.setattr(f"classclock.book.tables.catching_up.{name}", few)
    assert catch_up(book, NOW, anew=True).classes == CLASSES // 2
    book.close()
    assert contents(depot.folder) == at_once


def test_what_was_ended_between_two_batches_goes_on_with_the_next_command(
    storage: str, depot: DepotClasses, monkeypatch: pytest.MonkeyPatch
) -> None:
    for document in documents(depot, "hall"):
        depot.save(document)
    book = open_book(depot.folder)
    catch_up(book, NOW)
    whole = contents(depot.folder)
    for name, few in (("_FEW", 2), ("_FILES_AT_ONCE", 3), ("_ATHLETES_AT_ONCE", 2)):
        monkeypatch.setattr(f"classclock.book.tables.catching_up.{name}", few)
    for ended_at in range(9):
        left = iter(range(ended_at))

        def stopped(*_: object, left: Iterator[int] = left) -> None:
            if next(left, None) is None:
                raise KeyboardInterrupt

        with monkeypatch.context() as ended:
            ended.setattr("classclock.book.tables.catching_up.let_others_in", stopped)
            with pytest.raises(KeyboardInterrupt):
                catch_up(book, NOW, anew=True)
        catch_up(book, 10**19)
        assert contents(depot.folder) == whole, ended_at
    book.close()


def test_a_password_that_is_refused_is_said_so(
    own_server: OwnServer,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    for address, says in (
        (own_server.address("wr%40ng"), "refuses the name or the password: put CLASSCLOCK_BOOK"),
        (own_server.address(database="shelf"), "there is no database at 127.0.0.1:"),
    ):
        monkeypatch.setenv("CLASSCLOCK_BOOK", address)
        assert main(["chart", "--club", str(tmp_path)]) == 1
        said = capsys.readouterr().err
        assert says in said
        assert "wr@ng" not in said
        assert "classes run on" in said


def test_who_writes_is_said_to_a_room_that_waits_and_its_change_goes_in_later(
    storage: str,
    tmp_path: Path,
    monkeypatch: pytest.MonkeyPatch,
    capsys: pytest.CaptureFixture[str],
) -> None:
    if storage == "sqlite":
        pytest.skip("a file belongs to one room")
    for module in ("book_lock", "server_tables"):
        monkeypatch.setattr(f"classclock.book.tables.{module}.WAIT_S", 0.1)
    clubs = {room: DepotClasses(tmp_path / room) for room in ROOMS}
    for room, club in clubs.items():
        club.save(next(documents(club, room)))
        os.utime(club.folder / "results", (1, 1))  # long ago: nothing of it can still be changing
        assert main(["chart", "--club", str(club.folder)]) == 0
    monkeypatch.setattr("classclock.book.under_way.NOW.command", "book import")
    monkeypatch.setattr("classclock.book.under_way.NOW.since", "")
    shed = open_book(clubs["shed"].folder)
    capsys.readouterr()
    with shed.writing():
        assert main(["book", "rename", "Ilse", "Ilse V", "--club", str(tmp_path / "hall")]) == 0
        waited = capsys.readouterr()
        assert waited.out == "Ilse is Ilse V now.\n"
        assert waited.err.startswith(
            "It is written down here, and not in the book yet: the room shed writes in the book "
            "just now (classclock book import, begun "
        )
        assert "It goes in with the next command in this club." in waited.err
        assert main(["athlete", "Ilse", "--club", str(tmp_path / "hall")]) == 0, "it is asked on"
        assert "What is new isn't in the book yet: the room shed" in capsys.readouterr().err
        assert main(["book", "merge", "Bram", "Noor", "--club", str(tmp_path / "hall")]) == 1
        assert "wait until that is done, then do this again" in capsys.readouterr().err
    shed.close()
    assert main(["athlete", "Ilse V", "--club", str(tmp_path / "hall")]) == 0


def test_what_a_command_changes_is_in_the_other_room_when_it_says_so(
    storage: str, tmp_path: Path, capsys: pytest.CaptureFixture[str]
) -> None:
    if storage == "sqlite":
        pytest.skip("a file belongs to one room")
    clubs = {room: DepotClasses(tmp_path / room) for room in ROOMS}
    for room, club in clubs.items():
        club.save(next(documents(club, room)))
        assert main(["chart", "--club", str(club.folder)]) == 0
    shed = open_book(clubs["shed"].folder)
    sheet = tmp_path / "old.csv"
    sheet.write_text("name,benchmark,score,date\nOdell,Turntable,9+1,2020-02-01\n")
    said: list[dict[str, list[str]]] = [contents(shed.folder)]
    for words in (
        ("book", "rename", "Ilse", "Ilse V"),
        ("book", "mark", "Noor", "under-18"),
        ("book", "import", str(sheet)),
        ("book", "merge", "Bram", "Noor"),
        ("book", "undo"),
    ):
        assert main([*words, "--club", str(clubs["hall"].folder)]) == 0
        said.append(contents(shed.folder))
        assert said[-1] != said[-2], words
    shed.close()
    assert "not in the book yet" not in capsys.readouterr().err


def test_a_lock_that_nobody_lets_go_is_said_after_a_while(
    depot: DepotClasses, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.delenv("CLASSCLOCK_BOOK", raising=False)
    monkeypatch.setattr("classclock.book.tables.book_lock.WAIT_S", 0.05)
    monkeypatch.setattr("classclock.book.under_way.NOW.command", "book rebuild")
    monkeypatch.setattr("classclock.book.under_way.NOW.since", "2026-11-30T14:03:00+01:00")
    with (
        book_lock(depot.folder),
        pytest.raises(BookHeldError) as told,
        book_lock(depot.folder),
    ):
        pass
    said = str(told.value)
    assert "another classclock writes in the book just now (classclock book rebuild, begun" in said
