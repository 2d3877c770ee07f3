"""The keys for the clock and the class, in each phase of a segment."""

from collections.abc import Callable
from typing import get_args

import pytest

from classclock.tally.commands import (
    AddLate,
    AddTime,
    CallOff,
    Command,
    EndSegment,
    GoTo,
    HoldClock,
    Leave,
    Next,
    Restart,
    Resume,
    SetNumber,
    ShowCard,
    ShowKeys,
    ShowNotices,
    Start,
    UndoHold,
)
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyContext, KeyState
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.keys.strokes import Stroke

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
Left = Callable[..., str]
PHASES = get_args(KeyPhase)


@pytest.mark.parametrize(
    ("key", "phase", "meant"),
    [
        ("<space>", "running", HoldClock()),
        ("<space>", "held", Resume()),
        ("<space>", "count-in", CallOff()),
        ("<enter>", "board", Start()),
        ("<enter>", "held", EndSegment()),
        ("<enter>", "over", Next()),
        ("<ctrl+r>", "held", Restart()),
        ("<ctrl+r>", "board", GoTo(0)),
        ("<ctrl+r>", "over", GoTo(0)),
        ("<up>", "board", GoTo(-1)),
        ("<down>", "board", GoTo(1)),
        ("<up>", "over", GoTo(-1)),
        ("<down>", "over", GoTo(1)),
    ],
)
def test_a_key_of_the_clock_means_this_now(
    commands: Commands, key: str, phase: str, meant: Command
) -> None:
    assert commands(key, phase=phase) == [meant]


@pytest.mark.parametrize(
    ("key", "phase", "told"),
    [
        ("<space>", "board", "enter starts"),
        ("<space>", "over", "enter goes on"),
        ("<enter>", "running", "space holds it first"),
        ("<enter>", "count-in", "space calls it off"),
        ("<ctrl+r>", "running", "space holds it first"),
        ("<ctrl+r>", "count-in", "space calls it off"),
        ("<up>", "count-in", "space calls it off"),
        ("=", "running", "space holds it"),
        ("=", "board", "isn't held"),
    ],
)
def test_a_key_that_does_nothing_now_says_what_would(
    commands: Commands, said: Said, key: str, phase: str, told: str
) -> None:
    assert commands(key, phase=phase) == []
    assert told in said(key, phase=phase)


def test_enter_ends_a_running_piece_once_all_are_in(commands: Commands) -> None:
    assert commands("<enter>", phase="running", all_in=True) == [EndSegment()]


@pytest.mark.parametrize("phase", ["running", "held"])
def test_a_countdown_gets_a_minute_more_or_less(commands: Commands, said: Said, phase: str) -> None:
    assert commands("<up>", phase=phase, can_change_time=True) == [AddTime(1)]
    assert commands("<down>", phase=phase, can_change_time=True) == [AddTime(-1)]
    assert commands("<up>", phase=phase) == []
    assert "only a countdown" in said("<up>", phase=phase)


@pytest.mark.parametrize("phase", PHASES)
@pytest.mark.parametrize(
    ("key", "meant"),
    [
        ("+", AddLate()),
        ("!", ShowCard()),
        ("<f2>", ShowCard()),
        ("?", ShowKeys()),
        ("<ctrl+n>", ShowNotices()),
        ("<ctrl+q>", Leave()),
        ("<ctrl+c>", Leave()),
    ],
)
def test_these_work_at_any_time(commands: Commands, key: str, phase: str, meant: Command) -> None:
    assert commands(key, phase=phase) == [meant]


def test_plus_after_a_number_is_no_latecomer(commands: Commands) -> None:
    assert commands("7+n") == [SetNumber("p-noor", None, rounds=7)]


@pytest.mark.parametrize("key", ["<space>", "!", "<f2>"])
def test_the_clock_is_held_at_once_though_a_number_is_half_typed(
    commands: Commands, left: Left, key: str
) -> None:
    assert len(commands(f"12{key}")) == 1
    assert left(f"12{key}") == "12"


@pytest.mark.parametrize("phase", ["board", "held", "over"])
def test_enter_does_not_go_on_while_a_number_waits_for_its_letter(
    commands: Commands, said: Said, left: Left, phase: str
) -> None:
    assert commands("12<enter>", phase=phase) == []
    assert left("12<enter>", phase=phase) == "12"
    assert said("12<enter>", phase=phase) == "12 waits for a letter: escape drops it, then enter"


def test_equals_twice_within_three_seconds_undoes_the_hold(commands: Commands, said: Said) -> None:
    def equals_at(*moments: int) -> list[tuple[int, str]]:
        return [(moment, "=") for moment in moments]

    assert "once more" in said("=", phase="held")
    assert commands(equals_at(0), phase="held") == []
    assert commands(equals_at(0, 1_201), phase="held") == [UndoHold()]
    assert commands(equals_at(0, 3_000), phase="held") == [UndoHold()]
    assert commands(equals_at(0, 3_001), phase="held") == []
    # too late for the first, it is a first one itself
    assert commands(equals_at(0, 3_001, 5_000), phase="held") == [UndoHold()]
    assert commands(equals_at(0, 1_300, 2_600), phase="held") == [UndoHold()]


def test_a_fresh_hold_needs_both_equals_anew(commands: Commands) -> None:
    typed = [(0, "="), (500, "<space>"), (1_800, "=")]
    assert commands(typed, phase="held") == [Resume()]


def test_escape_never_ends_a_running_piece(commands: Commands, left: Left) -> None:
    for phase in PHASES:
        assert commands("<escape>", phase=phase) == []
        assert left("7+12<escape>", phase=phase) == ""


def test_enter_held_down_on_the_board_starts_the_count_in_and_no_more() -> None:
    state = KeyState()
    meant: list[Command] = []
    for real in (0, *range(660, 20_000, 40)):
        phase: KeyPhase = "board" if not meant else "count-in" if real < 10_000 else "over"
        context = KeyContext({}, phase, "rounds")
        pressed = press(state, Stroke("<enter>", real, real), context)
        state = pressed.state
        meant += [pressed.command] if pressed.command else []
    assert meant == [Start()]
