"""A journal on a disk that refuses: only what is synced counts as on disk."""

import errno
import os
import shutil
import threading
from collections.abc import Callable, Iterator
from pathlib import Path
from typing import Any

import pytest

from classclock.book.files import held_file, kept_lines
from classclock.book.files.held_file import JournalInUseError, held_again
from classclock.book.files.journal import Anchor, Lost, read_journal
from classclock.book.files.journal_writer import JournalWriter
from classclock.book.files.spare_room import SpareRoom
from classclock.machine.syncing import sync
from classclock.tally import events as ev
from classclock.tally.lanes import Person

WALL = "2026-11-24T18:30:00.000+01:00"
ANCHOR = Anchor(boot="b1", raw=5_000_000_000, at=0, wall=WALL)
OPENED = ev.ClassOpened(0, "yard", 'title = "x"', "kg", (Person("ilse", "Ilse", "i"),), None)
TAPS = tuple(ev.Tapped(at, lane) for at, lane in ((1_000, "ilse"), (2_000, "bram")))
EIO, FULL = (OSError(number, os.strerror(number)) for number in (errno.EIO, errno.ENOSPC))


@pytest.fixture
def path(tmp_path: Path) -> Path:
    return tmp_path / "journals" / "yard.jsonl"


@pytest.fixture
def writer(path: Path) -> Iterator[JournalWriter]:
    """A class that was opened, all of it on disk."""
    writer = JournalWriter(path, wall=lambda: WALL, spare=SpareRoom(path.parent.parent))
    writer.open_new(ANCHOR)
    writer.append(OPENED)
    writer.settle(5)
    yield writer
    writer.close()


@pytest.fixture
def fails(monkeypatch: pytest.MonkeyPatch) -> Callable[[str, Exception | None], None]:
    """From now on this call raises this; None: it is well again."""
    places = {"write": os, "open": os, "sync": held_file, "sync_folder": held_file}
    real = {call: getattr(place, call) for call, place in places.items()}

    def fail(call: str, error: Exception | None) -> None:
        def failing(*_: Any) -> Any:
            assert error is not None
            raise error

        monkeypatch.setattr(places[call], call, real[call] if error is None else failing)

    return fail


def tap(writer: JournalWriter) -> None:
    for event in TAPS:
        writer.append(event)
    writer.settle(5)


def test_what_is_written_and_not_synced_is_not_on_disk(
    writer: JournalWriter, monkeypatch: pytest.MonkeyPatch
) -> None:
    begun, goes_on, real = threading.Event(), threading.Event(), sync

    def slow(file: int) -> None:
        begun.set()
        assert goes_on.wait(5)
        real(file)

    monkeypatch.setattr(held_file, "sync", slow)
    writer.append(TAPS[0])
    assert begun.wait(5)
    assert read_journal(writer.path).events == (OPENED, TAPS[0])
    assert (writer.number, writer.on_disk, writer.all_on_disk) == (2, 1, False)
    assert writer.fault == "", "nothing failed so far"
    monkeypatch.setattr(kept_lines, "HANGS", 0.0)
    assert writer.fault == "the disk doesn't answer"
    goes_on.set()
    writer.settle(5)
    assert (writer.on_disk, writer.all_on_disk, writer.fault) == (2, True, "")


def test_a_new_journal_is_on_disk_once_its_folder_has_its_name(
    path: Path, fails: Callable[..., None]
) -> None:
    fails("sync_folder", EIO)
    writer = JournalWriter(path, wall=lambda: WALL)
    writer.open_new(ANCHOR)
    writer.append(OPENED)
    writer.settle(5)
    assert (writer.on_disk, writer.fault) == (0, "the disk is failing")
    fails("sync_folder", None)
    writer.try_again()
    writer.settle(5)
    assert (writer.on_disk, writer.fault) == (1, "")
    writer.close()


@pytest.mark.parametrize("call", ["write", "sync"])
def test_a_file_that_the_disk_failed_on_is_written_anew_whole_and_nobody_gets_it_meanwhile(
    writer: JournalWriter, fails: Callable[..., None], call: str
) -> None:
    before = writer.path.stat().st_ino
    fails(call, EIO)
    tap(writer)
    assert (writer.on_disk, writer.fault) == (1, "the disk is failing")
    fails(call, None)
    with writer.path.open("r+b") as file:  # what such a sync may have thrown away
        file.write(bytes(40))
    writer.try_again()
    writer.settle(5)
    assert (writer.on_disk, writer.fault) == (3, "")
    assert read_journal(writer.path).events == (OPENED, *TAPS)
    assert writer.path.stat().st_ino != before
    with pytest.raises(JournalInUseError):
        held_again(writer.path)
    assert [path.name for path in writer.path.parent.glob(".writing*")] == []
    writer.append(TAPS[0])
    writer.close()
    assert read_journal(writer.path).events == (OPENED, *TAPS, TAPS[0])


def test_a_file_of_somebody_is_not_written_over_by_one_that_is_written_anew(
    writer: JournalWriter, fails: Callable[..., None]
) -> None:
    fails("write", EIO)
    tap(writer)
    fails("write", None)
    writer.path.unlink()
    writer.path.write_text("somebody's list of parts")
    writer._there._syncing.ask()  # before the file is looked at
    writer.settle(5)
    writer.try_again()
    assert writer.path.read_text() == "somebody's list of parts"
    assert writer.fault == "another file is called yard.jsonl"
    assert writer.on_disk == 0


def test_a_link_that_leads_nowhere_has_the_name_as_any_file_has(tmp_path: Path) -> None:
    path = tmp_path / "yard.jsonl"
    path.symlink_to(tmp_path / "gone")
    with pytest.raises(FileExistsError):
        JournalWriter(path, wall=lambda: WALL).open_new(ANCHOR)


def test_a_link_that_leads_nowhere_in_its_place_is_said_as_any_file_is(
    writer: JournalWriter, tmp_path: Path
) -> None:
    writer.path.unlink()
    writer.path.symlink_to(tmp_path / "gone")
    tap(writer)
    assert writer.fault == "another file is called yard.jsonl"
    assert not (tmp_path / "gone").exists()


def test_a_folder_that_is_taken_away_has_nothing_on_disk_until_all_is_written_again(
    writer: JournalWriter, fails: Callable[..., None]
) -> None:
    shutil.rmtree(writer.path.parent)
    fails("open", EIO)
    tap(writer)
    assert (writer.on_disk, writer.fault) == (0, "the disk is failing")
    fails("open", None)
    writer.try_again()
    writer.settle(5)
    assert (writer.on_disk, writer.fault) == (3, "")


# -- when it ends so -----------------------------------------------------------------------


def test_what_is_in_memory_only_when_the_window_is_closed_is_said_in_the_journal(
    writer: JournalWriter, monkeypatch: pytest.MonkeyPatch
) -> None:
    real = os.write
    room = [20]  # bytes: less than an event takes

    def nearly_full(file: int, data: bytes) -> int:
        if b'"lost"' in bytes(data):
            return real(file, data)
        took = min(room[0], len(data))
        room[0] -= took
        if not took:
            raise FULL
        return real(file, bytes(data)[:took])

    monkeypatch.setattr(os, "write", nearly_full)
    tap(writer)
    assert writer.fault == "the disk is full"
    writer.close()
    journal = read_journal(writer.path)
    assert journal.events == (OPENED,)
    assert journal.lost == (Lost(2, ("ilse", "bram"), WALL, WALL),)
    assert not journal.torn
    assert (writer.number, writer.on_disk) == (3, 1)


def test_where_not_even_that_can_be_said_the_journal_is_whole_up_to_there(
    writer: JournalWriter, fails: Callable[..., None]
) -> None:
    fails("write", EIO)
    tap(writer)
    writer.close()
    journal = read_journal(writer.path)
    assert (journal.events, journal.lost, journal.unfinished) == ((OPENED,), (), True)
    assert held_again(writer.path), "it is let go all the same"


def test_a_class_goes_on_behind_what_was_lost(writer: JournalWriter) -> None:
    writer.close()
    lost = Lost(2, ("ilse",), WALL, WALL)
    with writer.path.open("ab") as file:
        file.write(lost.line())
    held, journal = held_again(writer.path), read_journal(writer.path)
    again = JournalWriter(writer.path, wall=lambda: WALL)
    again.go_on(held, journal, ANCHOR)
    assert again.append(TAPS[0]) == 1
    again.close()
    journal = read_journal(writer.path)
    assert (journal.events, journal.lost) == ((OPENED, TAPS[0]), (lost,))


# -- in another place ----------------------------------------------------------------------


def test_another_place_that_refuses_too_leaves_all_where_it_was(
    writer: JournalWriter, tmp_path: Path, fails: Callable[..., None]
) -> None:
    elsewhere = tmp_path / "stick" / "yard.jsonl"
    fails("sync", EIO)
    with pytest.raises(OSError, match="Input/output error"):
        writer.move_to(elsewhere)
    fails("sync", None)
    assert not elsewhere.exists()
    tap(writer)
    assert (writer.path.name, writer.on_disk) == ("yard.jsonl", 3)
    assert read_journal(writer.path).events == (OPENED, *TAPS)


def test_what_was_refused_is_on_disk_in_the_other_place_at_once(
    writer: JournalWriter, tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    real, old = os.write, writer.path.stat()

    def refuse(file: int, data: bytes) -> int:
        if os.path.samestat(os.fstat(file), old):
            raise FULL
        return real(file, data)

    monkeypatch.setattr(os, "write", refuse)
    tap(writer)
    assert writer.on_disk == 1
    writer.move_to(tmp_path / "stick" / "yard.jsonl")
    assert (writer.on_disk, writer.fault) == (3, "")
    assert read_journal(tmp_path / "stick" / "yard.jsonl").events == (OPENED, *TAPS)
