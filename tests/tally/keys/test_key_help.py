"""The help says what the keys do: its lines are checked against the keys themselves."""

from collections.abc import Callable
from typing import get_args

import pytest

from classclock.plan.formats.counting import CountsBy
from classclock.tally.commands import Command, Correct, ShiftClock
from classclock.tally.keys.key_help import KEY_LINES, KeyLine, key_help
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.scores.questions import ScoreQuestion

ASKED = ScoreQuestion(
    "p-noor", "Noor", "n", "less", "odd reps of the smaller round?", number="odd reps"
)
Commands = Callable[..., list[Command]]
BY_NAME = (
    "enter",
    "space",
    "backspace",
    "escape",
    "ctrl+e",
    "ctrl+n",
    "ctrl+p",
    "ctrl+r",
    "ctrl+w",
    "ctrl+q",
    "up",
    "down",
)
TYPED = {
    "! or F2": ("!", "<f2>"),
    "up, down": ("<up>", "<down>"),
    "> n m": (">nb",),
    "= =": ("=",),
}


def strokes(line: KeyLine) -> tuple[str, ...]:
    if line.keys in TYPED:
        return TYPED[line.keys]
    words = line.keys.split()
    return ("".join(f"<{word}>" if word in BY_NAME else word for word in words),)


@pytest.mark.parametrize("line", KEY_LINES, ids=lambda line: f"{line.keys} {line.meaning}")
def test_every_line_of_the_help_holds_wherever_it_is_shown(
    commands: Commands, line: KeyLine
) -> None:
    for phase in line.phases or get_args(KeyPhase):
        for counts_by in line.counts_by or get_args(CountsBy):
            assert line in key_help(counts_by, phase)
            for typed in strokes(line):
                meant = commands(
                    [(0, typed), (1_300, "=" if typed == "=" else "<escape>")],
                    phase=phase,
                    counts_by=counts_by,
                    can_change_time=True,
                    all_in=True,
                    asked=ASKED,
                    alone={"p-noor": "p-noor"},
                )
                assert len(meant) == (0 if typed == "<escape>" else 1), (typed, phase, counts_by)


def test_every_command_has_a_key_in_the_help_but_those_that_only_a_screen_gives(
    commands: Commands,
) -> None:
    meant = {
        type(command)
        for line in KEY_LINES
        for phase in line.phases or get_args(KeyPhase)
        for counts_by in line.counts_by or get_args(CountsBy)
        for typed in strokes(line)
        for command in commands(
            [(0, typed), (1_300, typed if typed == "=" else "<escape>")],
            phase=phase,
            counts_by=counts_by,
            can_change_time=True,
            all_in=True,
            asked=ASKED,
            alone={"p-noor": "p-noor"},
        )
    }
    assert set(get_args(Command)) - meant == {Correct, ShiftClock}


def test_a_warm_up_shows_no_keys_for_counting() -> None:
    assert {line.group for line in key_help("nothing", "running")} == {
        "putting right",
        "clock",
        "class",
    }


def test_each_piece_shows_its_own_way_of_counting() -> None:
    def keys(counts_by: CountsBy) -> set[str]:
        return {line.keys for line in key_help(counts_by, "running")}

    assert "7+12n" in keys("rounds")
    assert "7+12n" not in keys("load")
    assert "82.5n" in keys("load")
    assert "3:12n" in keys("intervals")
    assert "3:12n" not in keys("rounds")


def test_no_two_lines_shown_at_once_are_about_the_same_keys() -> None:
    for phase in get_args(KeyPhase):
        for counts_by in get_args(CountsBy):
            keys = [line.keys for line in key_help(counts_by, phase)]
            assert len(keys) == len(set(keys))
