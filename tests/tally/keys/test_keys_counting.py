"""The rows of the key language that count something."""

from collections.abc import Callable
from decimal import Decimal

import pytest

from classclock.tally.commands import (
    ChangeOption,
    Command,
    FinishNow,
    Miss,
    Select,
    SetNumber,
    StopLane,
    Tap,
)

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
EVERY_SCORE = ("rounds", "intervals", "reps", "load")


@pytest.mark.parametrize("counts_by", EVERY_SCORE)
def test_a_letter_is_that_lanes_tap(commands: Commands, counts_by: str) -> None:
    assert commands("n", counts_by=counts_by) == [Tap("p-noor")]


def test_caps_lock_and_shift_change_nothing(commands: Commands) -> None:
    assert commands("N") == [Tap("p-noor")]
    assert commands("7+12N") == commands("7+12n")
    assert commands(">Nb") == commands(">nB")


@pytest.mark.parametrize("counts_by", EVERY_SCORE)
def test_digits_then_a_letter_are_that_lanes_number(commands: Commands, counts_by: str) -> None:
    assert commands("12n", counts_by=counts_by) == [SetNumber("p-noor", Decimal(12))]
    assert commands("0n", counts_by=counts_by) == [SetNumber("p-noor", Decimal(0))]
    assert commands("2450n", counts_by=counts_by) == [SetNumber("p-noor", Decimal(2450))]


@pytest.mark.parametrize("typed", ["11n", "22n", "111n"])
def test_the_same_digit_twice_is_a_number(commands: Commands, typed: str) -> None:
    assert commands(typed) == [SetNumber("p-noor", Decimal(typed[:-1]))]


@pytest.mark.parametrize("typed", ["82.5n", "82,5n"])
def test_a_load_has_a_decimal_mark(commands: Commands, typed: str) -> None:
    assert commands(typed, counts_by="load") == [SetNumber("p-noor", Decimal("82.5"))]


@pytest.mark.parametrize("counts_by", ["rounds", "intervals", "reps"])
@pytest.mark.parametrize("mark", [".", ","])
def test_whole_reps_have_none_and_it_says_so(
    commands: Commands, said: Said, counts_by: str, mark: str
) -> None:
    assert "is for loads" in said(f"12{mark}", counts_by=counts_by)
    # neither 125 reps, nor a lane stopped, nor 12
    assert commands(f"12{mark}5n", counts_by=counts_by) == []
    assert commands(f"12{mark}n", counts_by=counts_by) == []
    assert commands(f"12{mark}<backspace>n", counts_by=counts_by) == commands("12n")


def test_a_load_cut_short_at_its_mark_waits_for_a_digit(commands: Commands, said: Said) -> None:
    assert commands("82.n", counts_by="load") == []
    assert said("82.n", counts_by="load") == "82. waits for a digit, as in 82.5n"


def test_you_are_on_seven(commands: Commands) -> None:
    assert commands("7+n") == [SetNumber("p-noor", None, rounds=7)]


def test_seven_and_twelve_as_a_score_is_written(commands: Commands) -> None:
    assert commands("7+12n") == [SetNumber("p-noor", Decimal(12), rounds=7)]


def test_a_number_for_an_interval_by_name(commands: Commands) -> None:
    assert commands("3:12n", counts_by="intervals") == [
        SetNumber("p-noor", Decimal(12), interval=3)
    ]


def test_an_interval_without_its_reps_waits_for_them(commands: Commands, said: Said) -> None:
    assert commands("3:n", counts_by="intervals") == []
    assert said("3:n", counts_by="intervals").startswith("3: waits for the reps")
    assert commands("3:n12n", counts_by="intervals") == commands("3:12n", counts_by="intervals")


def test_finished_now(commands: Commands) -> None:
    assert commands("*n") == [FinishNow("p-noor")]


def test_a_miss_at_the_planned_load(commands: Commands) -> None:
    assert commands("/n", counts_by="load") == [Miss("p-noor")]


@pytest.mark.parametrize("load", ["85", "82.5", "102.25"])
def test_a_miss_at_a_load(commands: Commands, load: str) -> None:
    assert commands(f"{load}/n", counts_by="load") == [Miss("p-noor", Decimal(load))]


def test_a_load_after_the_slash_counts_nothing_rather_than_a_load_made(commands: Commands) -> None:
    assert commands("/85n", counts_by="load") == []


def test_from_here_that_lane_uses_option_two(commands: Commands) -> None:
    assert commands(":n2") == [ChangeOption("p-noor", 2)]
    assert commands(":n0") == [ChangeOption("p-noor", 0)]


def test_an_option_waits_for_its_number_not_for_another_letter(
    commands: Commands, said: Said
) -> None:
    assert commands(":nb") == []
    assert said(":nb") == ":n waits for the number of the option, as in :n2"


def test_a_mark_in_an_options_number_chooses_none(commands: Commands, said: Said) -> None:
    assert commands(":n:1") == []
    assert said(":n:1") == ":n:1 means nothing: backspace takes off the last sign, escape drops it"


def test_that_lane_stops_here(commands: Commands) -> None:
    assert commands(".n") == [StopLane("p-noor")]
    assert commands(".n", counts_by="load") == [StopLane("p-noor")]


def test_at_the_settle_a_bare_letter_only_selects(commands: Commands) -> None:
    assert commands("nnb", phase="over") == [Select("p-noor"), Select("p-noor"), Select("p-bram")]


@pytest.mark.parametrize("typed", ["12n", "7+12n", "*n", "/n", "-n", "<backspace>", ">nb", ":n2"])
def test_at_the_settle_all_else_means_what_it_meant(commands: Commands, typed: str) -> None:
    assert commands(typed, phase="over") == commands(typed, phase="running")


@pytest.mark.parametrize("typed", ["n", "*n", "/n", "7+n", "85/n", "<backspace>", "-<backspace>"])
def test_nothing_is_counted_on_the_board(commands: Commands, said: Said, typed: str) -> None:
    assert commands(typed, phase="board") == []
    assert said(typed, phase="board").endswith("enter starts")


@pytest.mark.parametrize("phase", ["running", "held", "over"])
@pytest.mark.parametrize("typed", ["x", "é", "ñ", "ß", "İ", "\u212a"])
def test_a_letter_nobody_has_is_refused(
    commands: Commands, said: Said, phase: str, typed: str
) -> None:
    assert commands(typed, phase=phase) == []
    assert said(typed, phase=phase).startswith(f"nobody has the key {typed}")


@pytest.mark.parametrize("pending", ["12", "7+", "*", "/", "-", ">", ">n", ":", ".", "3:12"])
@pytest.mark.parametrize("nobody", ["x", "é"])
def test_a_letter_nobody_has_leaves_what_is_pending(
    left: Callable[..., str], pending: str, nobody: str
) -> None:
    assert left(pending + nobody, counts_by="intervals") == pending


@pytest.mark.parametrize("typed", ["²n", "٣n", "\uff11n"])
def test_only_the_ten_plain_digits_make_numbers(commands: Commands, typed: str) -> None:
    assert commands(typed) == [Tap("p-noor")]
