"""A terminal is asked what it is: its answer is heard in time, and never becomes a tap."""

from typing import Any

import pytest

VERSION, ATTRIBUTES = b"\x1bP>|VTE(7006)\x1b\\", b"\x1b[?65;1;9c"
"""As a VTE terminal answers: the first is XTVERSION's, the second DA1's (xterm's ctlseqs)."""
ASKED = b"\x1b[>q\x1b[c"
SEXTANTS = {chr(code) for code in range(0x1FB00, 0x1FB3C)}
PEOPLE = "Ilse, Cato, Vera, Tuva, Eik"
"""Each sign of an answer would be somebody's tap: V, T, E, c."""


def board(club: Any, **environment: str) -> Any:
    """A class on its board, in a terminal whose kind no variable tells."""
    return club.start("run", club.plan(), "--athletes", PEOPLE, "--speed", "3", **environment)


def asks(wall: Any) -> None:
    wall.waits_for(lambda: wall.text is not None and ASKED in wall.painted, "the question")


def begins(club: Any, wall: Any) -> None:
    wall.shows("enter starts", within=30)
    wall.type("\r")
    wall.waits_for(club.has_gone, "go")


@pytest.mark.real_time
def test_an_answer_in_time_brings_the_finest_letters(club: Any) -> None:
    wall = board(club)
    asks(wall)
    wall.type(VERSION + ATTRIBUTES)
    wall.shows("enter starts", within=30)
    assert SEXTANTS & set(wall.text)


@pytest.mark.real_time
def test_a_terminal_that_says_nothing_has_half_blocks(club: Any) -> None:
    wall = board(club)
    begins(club, wall)
    wall.type("i")
    wall.says("Ilse, round 1")
    assert set("▀▄█") <= set(wall.text)
    assert not SEXTANTS & set(wall.text)
    wall.type("12")
    wall.says("12")
    wall.type("\x1b")
    wall.strikes("c")
    wall.says("Cato, round 1")  # escape is still a key


@pytest.mark.real_time
@pytest.mark.parametrize("cut", [None, 1, 2, 3, 8, 14, 15, 17, 20])
def test_a_late_answer_is_no_tap_wherever_it_is_cut(club: Any, cut: int | None) -> None:
    wall = board(club)
    begins(club, wall)
    answer = VERSION + ATTRIBUTES
    if cut is None:
        wall.type(answer)
    else:
        wall.type(answer[:cut])
        wall.passes(0.05)
        wall.type(answer[cut:])
    wall.type("i")
    wall.says("Ilse, round 1")
    assert club.taps() == ["Ilse"]


@pytest.mark.real_time
def test_keys_struck_before_the_board_is_there_are_not_lost(club: Any) -> None:
    wall = board(club)
    asks(wall)
    wall.type(b"?" + VERSION + ATTRIBUTES)
    wall.shows("? or escape closes", within=30)


@pytest.mark.real_time
@pytest.mark.parametrize(
    "known", [{"VTE_VERSION": "7006"}, {"TERM": "xterm-kitty"}, {"TERM": "linux"}]
)
def test_a_terminal_that_is_known_is_not_asked(club: Any, known: dict[str, str]) -> None:
    wall = board(club, **known)
    wall.shows("enter starts", within=30)
    assert ASKED not in wall.painted


@pytest.mark.real_time
def test_once_it_is_left_the_terminal_echoes_again(club: Any) -> None:
    wall = board(club)
    wall.shows("enter starts", within=30)
    wall.type("\x11")
    wall.shows("enter leaves")
    wall.type("\r")
    assert wall.status() == 0
    wall.is_clean()
