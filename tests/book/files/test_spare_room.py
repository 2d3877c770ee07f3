"""Room that is kept for a class on a full disk."""

import shutil
import sys
from pathlib import Path

import pytest

from classclock.book.files import spare_room
from classclock.book.files.spare_room import SpareRoom


@pytest.fixture(autouse=True)
def _a_megabyte(monkeypatch: pytest.MonkeyPatch) -> None:
    monkeypatch.setattr(spare_room, "ROOM", 1_048_576)


@pytest.fixture
def free(monkeypatch: pytest.MonkeyPatch) -> list[int]:
    """How many bytes are free on the disk."""
    bytes_free = [50_000_000]
    usage = shutil.disk_usage("/")
    monkeypatch.setattr(shutil, "disk_usage", lambda _: usage._replace(free=bytes_free[0]))
    return bytes_free


def test_it_takes_a_megabyte_really_and_says_what_it_is(tmp_path: Path, free: list[int]) -> None:
    room = SpareRoom(tmp_path / "depot")
    room.keep()
    assert room.path.stat().st_size == 1_048_576
    if sys.platform != "win32":
        assert room.path.stat().st_blocks * 512 >= 1_048_576, "a hole would give no room back"
    assert room.path.read_bytes().startswith(b"classclock keeps this room for a class on a disk")
    assert room.path.stat().st_mode & 0o777 == 0o600
    assert (room.short, room.given_up) == (False, False)
    assert [path.name for path in room.path.parent.iterdir()] == ["spare-room"]


def test_it_is_made_once_for_all_classes(tmp_path: Path, free: list[int]) -> None:
    SpareRoom(tmp_path).keep()
    before = (tmp_path / "spare-room").stat()
    SpareRoom(tmp_path).keep()
    assert (tmp_path / "spare-room").stat().st_mtime_ns == before.st_mtime_ns


def test_it_is_given_up_but_for_the_last_of_it_and_made_anew_once_there_is_plenty(
    tmp_path: Path, free: list[int]
) -> None:
    room = SpareRoom(tmp_path)
    room.keep()
    assert room.give_up()
    assert room.path.stat().st_size == 4096
    assert room.given_up
    assert not room.give_up(), "there is no more to give"
    free[0] = 1_000_000
    room.keep()
    assert (room.short, room.given_up) == (True, True), "what the class writes comes first"
    assert room.path.stat().st_size == 4096
    room.give_the_last()
    assert not room.path.exists()
    free[0] = 50_000_000
    room.keep()
    assert (room.short, room.given_up) == (False, False)
    assert room.path.stat().st_size == 1_048_576


def test_where_there_is_none_nothing_is_given_and_nothing_raised(
    tmp_path: Path, free: list[int]
) -> None:
    in_the_way = tmp_path / "depot"
    in_the_way.write_text("somebody's list of parts")
    room = SpareRoom(in_the_way)
    room.keep()
    room.give_the_last()
    assert not room.give_up()
    assert not room.given_up


def test_in_another_folder_it_is_another_one(tmp_path: Path, free: list[int]) -> None:
    room = SpareRoom(tmp_path / "depot")
    room.keep()
    room.give_up()
    room.move_to(tmp_path / "stick")
    assert not room.given_up
    room.keep()
    assert (tmp_path / "stick" / "spare-room").stat().st_size == 1_048_576
