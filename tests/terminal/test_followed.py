"""A class in one terminal and the room's wall of it in another, side by side."""

from typing import Any

import pytest

from tests.signals import KILL
from tests.terminal.conftest import GUARD

DOWN = "\x1b[B"
KEYS = "keys    ctrl+q leaves"


def alike(wall: Any, room: Any) -> None:
    """Both terminals come to show the same, but for their last rows."""

    def same() -> bool:
        wall.passes(0.02)
        room.passes(0.02)
        ours, theirs = (one.text.split("\n")[:-1] for one in (wall, room))
        return bool(ours == theirs)

    wall.waits_for(same, "both to show the same", within=20)


def held_in_the_piece(club: Any, wall: Any, room: Any) -> None:
    """From the first board into the piece, where the clock is held."""
    for number in (2, 3, 4):
        wall.passes(GUARD)
        wall.type(DOWN)
        wall.shows(f"segment {number} of 5")
    alike(wall, room)
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")
    wall.type("n")
    wall.says("Noor, round 1")
    wall.type(" ")
    wall.shows("space resumes")
    alike(wall, room)


def to_the_next(wall: Any, room: Any) -> None:
    """On to the cap, through the settle, to the next board."""
    wall.type(" ")
    wall.shows("provisional, saved as", within=40)
    wall.type("4n")
    wall.says("Noor, 1+4")
    alike(wall, room)
    wall.type("*")
    wall.passes(GUARD)
    wall.type("\r")
    wall.shows("segment 5 of 5")
    alike(wall, room)


@pytest.mark.real_time
def test_a_whole_class_is_followed_killed_and_resumed(club: Any) -> None:
    # First Stop, a sample plan, is 8:00 long: at forty times the speed, 12 seconds.
    room = club.start("wall")
    room.shows("classclock run starts one", KEYS)
    wall = club.start("run", "first-stop", "--athletes", "Ilse, Bram, Noor", "--speed", "40")
    wall.shows("escape: later")  # flags on loads: on the coach's screen alone
    room.shows("segment 1 of 5")
    assert "escape: later" not in room.text
    wall.type("\x1b")
    wall.shows("enter starts", "segment 1 of 5")
    alike(wall, room)
    held_in_the_piece(club, wall, room)
    wall.type("12")
    wall.passes(0.5)
    held = room.text
    assert "space resumes" in held
    wall.signal(KILL)
    assert wall.status() == -KILL
    room.waits_for(lambda: room.text.split("\n")[-12:-1] != held.split("\n")[-12:-1], "it said")

    wall = club.start("resume")
    wall.says("rejoined")
    alike(wall, room)
    room.resize(100, 30)
    room.shows("space resumes")
    room.resize(120, 36)
    alike(wall, room)
    to_the_next(wall, room)
    wall.type("\x11")
    wall.shows("enter leaves, escape stays")
    wall.type("\r")
    assert wall.status() == 0
    room.shows("classclock run starts one")
    assert list((club.home / "journals").glob("*.view")) == []
    room.type("\x11")
    assert room.status() == 0
    room.is_clean()


@pytest.mark.real_time
def test_whoever_follows_can_come_and_go_and_be_killed(club: Any) -> None:
    wall = club.piece("Ilse, Bram, Noor")
    rooms = [club.start("wall") for _ in range(3)]
    for room in rooms:
        room.shows(KEYS, within=30)
        assert room.niceness() > wall.niceness(), "it goes behind the class"
    rooms[0].signal(KILL)
    rooms[1].hang_up()
    wall.type("n")
    wall.says("Noor, round 1")
    alike(wall, rooms[2])
    assert club.taps() == ["Noor"]
