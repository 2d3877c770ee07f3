"""What is typed about people between pieces: who has left, options, loads, who swaps with whom."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from classclock.tally.commands import (
    ChangeOption,
    ChooseLoad,
    ChooseOption,
    Command,
    SayBack,
    SayEffort,
    SayGone,
    SetNumber,
    Start,
    SwapPlaces,
    TakeBack,
)
from classclock.tally.keys.forms import NO_EFFORT

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
BOARD = {"phase": "board"}


@pytest.mark.parametrize(
    ("typed", "meant"),
    [
        (".n", SayGone("p-noor")),
        ("..n", SayGone("p-noor")),
        (".N", SayGone("p-noor")),
        ("-n", SayBack("p-noor")),
        (":n2", ChooseOption("p-noor", 2)),
        (":n0", ChooseOption("p-noor", 0)),
        ("80n", ChooseLoad("p-noor", Decimal(80))),
        ("82.5n", ChooseLoad("p-noor", Decimal("82.5"))),
        ("82,5n", ChooseLoad("p-noor", Decimal("82.5"))),
        ("3:80n", ChooseLoad("p-noor", Decimal(80), 3)),
        ("3:82.5n", ChooseLoad("p-noor", Decimal("82.5"), 3)),
        (">nb", SwapPlaces("p-noor", "p-bram")),
    ],
)
def test_on_the_board_what_is_said_of_somebody_is_meant_for_the_piece_to_come(
    commands: Commands, left: Said, typed: str, meant: Command
) -> None:
    assert commands(typed, counts_by="load", **BOARD) == [meant]
    assert left(typed, counts_by="load", **BOARD) == ""


@pytest.mark.parametrize(
    "typed",
    [":n2", ":n9", ":q2", ":2", ".n", "-n", "80n", "3:80n", ">nb", ">nn", "*n", "7+n", "82.n"],
)
def test_whatever_came_of_it_enter_starts_at_once(commands: Commands, typed: str) -> None:
    """`:n2` was refused on the board and left its digit waiting for a letter."""
    for counts_by in ("rounds", "load"):
        meant = commands(f"{typed}<enter>", counts_by=counts_by, **BOARD)
        assert meant[-1] == Start()


def test_on_the_last_screen_people_leave_and_are_back_and_nothing_is_to_come(
    commands: Commands, said: Said
) -> None:
    last: dict[str, Any] = {"phase": "last", "counts_by": "load"}
    assert commands(".n-n", **last) == [SayGone("p-noor"), SayBack("p-noor")]
    assert commands("n", **last) == []
    assert said("n", **last).startswith("the class is over")


@pytest.mark.parametrize(("typed", "effort"), [("0n", 0), ("7n", 7), ("10n", 10)])
@pytest.mark.parametrize("counts_by", ["rounds", "load", "nothing"])
def test_on_the_last_screen_a_number_is_how_hard_the_hour_was(
    commands: Commands, typed: str, effort: int, counts_by: str
) -> None:
    assert commands(typed, phase="last", counts_by=counts_by) == [SayEffort("p-noor", effort)]


@pytest.mark.parametrize("typed", ["11n", "80n", "007n", "7.5n", "3:7n"])
def test_no_other_number_is_and_what_was_typed_is_not_said_to_the_room(
    commands: Commands, said: Said, typed: str
) -> None:
    assert commands(typed, phase="last", counts_by="load") == []
    assert said(typed, phase="last", counts_by="load") == NO_EFFORT


def test_after_a_warm_up_letters_mean_people_too(commands: Commands, said: Said) -> None:
    over: dict[str, Any] = {"phase": "over", "counts_by": "nothing"}
    assert commands(".n-n", **over) == [SayGone("p-noor"), SayBack("p-noor")]
    for typed in ("n", "80n"):
        assert commands(typed, **over) == []
        assert said(typed, **over) == "nothing is counted here: enter goes on"
    assert commands("<backspace>", **over) == [TakeBack()], "the end of the warm-up"


@pytest.mark.parametrize(
    ("typed", "words"),
    [
        (":nb", "the number of the option comes after the letter, as in :n2"),
        (">nn", "> and the letters of two people: these two swap their places"),
        ("82.n", "82.n lacks a digit: the load whole, as in 82.5n or 3:82.5n"),
        ("3:n", "3:n lacks a digit: the load whole, as in 82.5n or 3:82.5n"),
        (":2", ":2 is dropped: the letter comes first, as in :n2"),
    ],
)
def test_what_means_nothing_says_what_to_type(said: Said, typed: str, words: str) -> None:
    assert said(typed, counts_by="load", **BOARD) == words


def test_above_26_people_the_list_is_used(commands: Commands, said: Said, left: Said) -> None:
    many: dict[str, Any] = {"keys": {}, "too_many": True, **BOARD}
    assert commands(".n<enter>", **many) == [Start()]
    assert said(".n", **many).endswith("ctrl+p has a list of everybody")


# -- more options than digits --------------------------------------------------------


@pytest.mark.parametrize("phase", ["board", "running", "held", "over"])
def test_where_there_are_more_than_nine_options_two_digits_call_one(
    commands: Commands, left: Said, phase: str
) -> None:
    kind = ChooseOption if phase == "board" else ChangeOption
    many: dict[str, Any] = {"phase": phase, "options": 12}
    assert commands(":n02", **many) == [kind("p-noor", 2)]
    assert commands(":n11", **many) == [kind("p-noor", 11)]
    assert commands(":n00", **many) == [kind("p-noor", 0)]
    assert commands(":n1", **many) == []
    assert left(":n1", **many) == ":n1"
    assert left(":n1<backspace>", **many) == ":n"
    assert commands(":n1<backspace>02", **many) == [kind("p-noor", 2)]


def test_nine_options_are_called_with_a_digit_each(commands: Commands) -> None:
    meant = commands([(0, ":n9"), (2_000, "12n")], options=9)
    assert meant == [ChangeOption("p-noor", 9), SetNumber("p-noor", Decimal(12))]


def test_half_a_number_keeps_enter_back_and_says_what_is_lacking(said: Said) -> None:
    waits = ":N1 waits for a digit: escape drops it, then enter"
    assert said(":n1<enter>", options=12, **BOARD) == waits


def test_half_a_number_is_no_other_number(commands: Commands, said: Said) -> None:
    assert commands(":n1b", options=12) == []
    assert said(":n1b", options=12, **BOARD).startswith("the number of the option comes after")


# -- a set by its number, while it runs ----------------------------------------------


def test_a_load_with_its_decimals_is_of_the_set_that_is_named(commands: Commands) -> None:
    assert commands("3:82.5n", counts_by="load") == [
        SetNumber("p-noor", Decimal("82.5"), interval=3)
    ]
    assert commands("3:82.5n", counts_by="intervals") == []
