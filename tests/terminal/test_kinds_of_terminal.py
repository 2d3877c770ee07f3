"""Every size, few colours, no colours, ASCII only: it works, gives way, or says what it needs."""

import random
from typing import Any

import pytest

ASCII = {"LC_ALL": "C", "LANG": "C", "PYTHONUTF8": "0", "PYTHONCOERCECLOCALE": "0"}


@pytest.mark.real_time
def test_a_storm_of_resizes_leaves_the_wall_right_and_every_tap_counted(club: Any) -> None:
    wall = club.piece("Ilse, Bram, Noor, Piet")
    chance = random.Random(7)  # noqa: S311  sizes, no secret
    sizes = [(60, 18), (240, 70), (20, 5), (1, 1), (120, 36), (59, 17), (213, 60)]
    sizes += [(chance.randint(1, 240), chance.randint(1, 70)) for _ in range(30)]
    letters = "ibnp"
    for number, (columns, rows) in enumerate(sizes):
        wall.resize(columns, rows)
        if number < len(letters):
            wall.type(letters[number])
    wall.resize(120, 36)
    wall.type("12n")
    wall.says("Noor, 1+12")
    wall.shows("rounds in 20:00")
    assert club.taps() == ["Ilse", "Bram", "Noor", "Piet"]


@pytest.mark.real_time
@pytest.mark.parametrize(("columns", "rows"), [(60, 18), (240, 70)])
def test_a_wall_counts_at_the_least_and_the_largest_size(
    club: Any, columns: int, rows: int
) -> None:
    wall = club.piece("Ilse, Bram, Noor", columns=columns, rows=rows)
    wall.type("n")
    wall.says("Noor, round 1")


@pytest.mark.real_time
def test_a_window_that_is_too_small_says_what_it_needs_and_still_counts(club: Any) -> None:
    wall = club.piece("Ilse, Bram, Noor")
    wall.resize(50, 12)
    wall.shows("classclock needs 60 columns and 18 rows", "window has 50 x 12")
    wall.type("n")
    wall.waits_for(lambda: club.taps() == ["Noor"], "the tap in the journal")
    wall.resize(120, 36)
    wall.drops("classclock needs")
    wall.shows("rounds in 20:00")


@pytest.mark.real_time
@pytest.mark.parametrize(
    "kind",
    [
        pytest.param({"NO_COLOR": "1"}, id="no colour"),
        pytest.param({"TERM": "xterm-16color", "COLORTERM": ""}, id="16 colours"),
        pytest.param({"TERM": "linux", "COLORTERM": ""}, id="a console"),
        pytest.param({"TERM": "dumb", "COLORTERM": ""}, id="a dumb terminal"),
        pytest.param(ASCII, id="no UTF-8"),
    ],
)
def test_a_poorer_terminal_shows_the_clock_the_lanes_and_what_was_called(
    club: Any, kind: dict[str, str]
) -> None:
    wall = club.piece("Ilse, Bram, Noor", **kind)
    wall.type("n")
    wall.says("Noor, round 1")
    wall.shows("Sandbox")
    if kind is ASCII:
        assert wall.text.isascii()
    wall.type("\x11")
    wall.shows("enter leaves, escape stays")
    wall.type("\r")
    assert wall.status() == 0
    wall.is_clean()
