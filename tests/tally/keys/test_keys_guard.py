"""Keys that repeat by themselves.

Delay and rate of common keyboards: 660 ms then every 40 ms, and 500 ms then every 33 ms (common
practice, no source).
"""

from collections.abc import Callable
from decimal import Decimal

import pytest

from classclock.tally.commands import (
    AddTime,
    BringBack,
    ChangeOption,
    Command,
    GoTo,
    HoldClock,
    SetNumber,
    ShowKeys,
    TakeBack,
    Tap,
)
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyContext, KeyState, lapse, pending_shown
from classclock.tally.keys.strokes import Stroke

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
Left = Callable[..., str]
HeldDown = Callable[..., list[tuple[int, str]]]

keyboards = pytest.mark.parametrize(("delay", "every"), [(660, 40), (500, 33)])


@keyboards
def test_a_key_held_five_seconds_counts_once(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    assert commands(held_down("n", 0, 5_000, delay, every)) == [Tap("p-noor")]


@keyboards
@pytest.mark.parametrize(
    "key",
    ["<space>", "<ctrl+q>", "<ctrl+c>", "<backspace>", "<up>", "!", "<f2>", "+"],
)
def test_so_does_every_other_key_that_means_something_by_itself(
    commands: Commands, held_down: HeldDown, key: str, delay: int, every: int
) -> None:
    held = held_down(key, 0, 5_000, delay, every)
    assert len(commands(held, can_change_time=True)) == 1


@keyboards
@pytest.mark.parametrize("key", ["<enter>", "<ctrl+r>"])
def test_and_the_keys_that_end_a_held_segment(
    commands: Commands, held_down: HeldDown, key: str, delay: int, every: int
) -> None:
    assert len(commands(held_down(key, 0, 5_000, delay, every), phase="held")) == 1


@keyboards
def test_equals_held_down_undoes_no_hold(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    assert commands(held_down("=", 0, 5_000, delay, every), phase="held") == []


@keyboards
def test_a_letter_that_ends_a_number_and_is_held_counts_no_round(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    held = held_down("n", 200, 5_000, delay, every)
    assert commands([(0, "12"), *held]) == [SetNumber("p-noor", Decimal(12))]
    assert commands([(0, "-"), *held]) == [TakeBack("p-noor")]


@keyboards
def test_backspace_held_after_it_brought_back_takes_nothing_back(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    held = held_down("<backspace>", 100, 5_000, delay, every)
    assert commands([(0, "-"), *held]) == [BringBack()]


@keyboards
@pytest.mark.parametrize("pending", ["1", "12", "7+12", ">n"])
def test_backspace_held_to_rub_out_a_number_takes_no_entry_back(
    commands: Commands, held_down: HeldDown, pending: str, delay: int, every: int
) -> None:
    held = held_down("<backspace>", 100, 5_000, delay, every)
    assert commands([(0, pending), *held]) == []


@keyboards
def test_a_digit_held_down_never_becomes_a_number(
    commands: Commands, said: Said, held_down: HeldDown, delay: int, every: int
) -> None:
    held = held_down("1", 0, 2_000, delay, every)
    assert commands([*held, (2_100, "n")]) == []
    assert "means nothing" in said([*held, (2_100, "n")])


@keyboards
def test_the_digit_that_chose_an_option_begins_no_number_when_held(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    held = held_down("2", 100, 5_000, delay, every)
    typed = [(0, ":n"), *held, (5_100, "b")]
    assert commands(typed) == [ChangeOption("p-noor", 2), Tap("p-bram")]


@pytest.mark.parametrize("rest", ["2", "1", "+12", "", "2<backspace>", "2.5"])
def test_a_number_whose_first_digit_the_guard_refuses_counts_whole_or_not_at_all(
    commands: Commands, said: Said, rest: str
) -> None:
    typed = [(0, ":n1"), (900, f"1{rest}b")]
    assert commands(typed) == [ChangeOption("p-noor", 1)]
    assert said(typed).endswith("isn't counted, 1 came again within 1.2 s: type it again")
    again = [*typed, (1_500, "12b")]
    assert commands(again) == [ChangeOption("p-noor", 1), SetNumber("p-bram", Decimal(12))]


def test_what_the_guard_refused_is_not_shown_as_if_it_would_count(left: Left) -> None:
    typed = [(0, ":n1"), (900, "12")]
    assert left(typed) == "12"
    refused = KeyState(pending="12", since=900, refused=True)
    assert pending_shown(refused) == ""
    assert lapse(refused, 4_899) == (refused, None)
    assert lapse(refused, 4_900) == (KeyState(since=900, emptied=4_900), None)  # said already


@pytest.mark.parametrize("dropped_by", ["<escape>", "<backspace><backspace>"])
def test_what_the_guard_refused_can_be_dropped_by_hand(commands: Commands, dropped_by: str) -> None:
    typed = [(0, ":n1"), (900, "12"), (1_000, dropped_by), (1_100, "b")]
    assert commands(typed) == [ChangeOption("p-noor", 1), Tap("p-bram")]


def test_enter_goes_on_with_nothing_that_the_guard_refused(commands: Commands, said: Said) -> None:
    typed = [(0, ":n1"), (900, "12<enter>")]
    assert commands(typed, phase="over") == [ChangeOption("p-noor", 1)]
    assert "12 isn't counted" in said(typed, phase="over")


def test_the_guard_refuses_a_number_for_nobody_without_saying_that_it_waits(said: Said) -> None:
    assert said([(0, ":n1"), (900, "12x")]) == "nobody has the key x"


def test_help_may_be_opened_and_closed_as_fast_as_a_thumb_can(commands: Commands) -> None:
    assert commands([(0, "?"), (150, "?")]) == [ShowKeys()] * 2


@keyboards
def test_help_hardly_flickers_when_its_key_is_held(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    assert commands(held_down("?", 0, 5_000, delay, every)) == [ShowKeys()] * 2


def test_the_same_digit_may_end_one_entry_and_begin_another_lanes(commands: Commands) -> None:
    assert commands("2n2b") == [SetNumber("p-noor", Decimal(2)), SetNumber("p-bram", Decimal(2))]


@keyboards
@pytest.mark.parametrize("mark", ["*", "-", "/", ".", ">", ":"])
def test_a_mark_held_down_stays_one_mark(
    commands: Commands, held_down: HeldDown, mark: str, delay: int, every: int
) -> None:
    typed = [*held_down(mark, 0, 1_500, delay, every), (1_600, "nb2")]
    assert commands(typed)[:1] == commands(f"{mark}nb2")[:1]


def test_two_calls_more_than_the_guard_apart_are_two(commands: Commands) -> None:
    assert commands([(0, "n"), (1_200, "n")]) == [Tap("p-noor")]
    assert commands([(0, "n"), (1_201, "n")]) == [Tap("p-noor"), Tap("p-noor")]


def test_a_stroke_that_was_not_counted_still_guards_the_next(commands: Commands) -> None:
    assert commands([(0, "n"), (1_000, "n"), (2_000, "n")]) == [Tap("p-noor")]


def test_it_says_that_a_repeat_was_not_counted(said: Said) -> None:
    assert said("nn") == "n again within 1.2 s: not counted"
    assert said("nN") == "n again within 1.2 s: not counted"
    assert said("<space><space>") == "space again within 1.2 s: not counted"


def test_other_lanes_may_be_tapped_at_once(commands: Commands) -> None:
    assert commands("nib", gap=0) == [Tap("p-noor"), Tap("p-ilse"), Tap("p-bram")]


def test_a_letter_that_ends_a_number_is_never_guarded(commands: Commands) -> None:
    assert commands("n12n") == [Tap("p-noor"), SetNumber("p-noor", Decimal(12))]
    assert commands("nn-n") == [Tap("p-noor"), TakeBack("p-noor")]
    assert commands("12n13n", gap=0) == [
        SetNumber("p-noor", Decimal(12)),
        SetNumber("p-noor", Decimal(13)),
    ]


def test_the_guard_runs_in_real_time_however_fast_the_class() -> None:
    context = KeyContext({"n": "p-noor"}, "running", "rounds")
    first = press(KeyState(), Stroke("n", real=0, at=0), context)
    at_sixty_times = press(first.state, Stroke("n", real=1_100, at=66_000), context)
    assert at_sixty_times.command is None
    at_a_tenth = press(first.state, Stroke("n", real=1_300, at=130), context)
    assert at_a_tenth.command == Tap("p-noor")


@keyboards
def test_an_arrow_between_segments_may_be_struck_quickly_but_hardly_moves_when_held(
    commands: Commands, held_down: HeldDown, delay: int, every: int
) -> None:
    """Nothing is counted by it, and the other arrow takes it back."""
    quickly = [(0, "<down>"), (180, "<down>"), (360, "<down>")]
    assert commands(quickly, phase="board") == [GoTo(1)] * 3
    assert commands(held_down("<down>", 0, 5_000, delay, every), phase="board") == [GoTo(1)] * 2


def test_a_minute_more_or_less_is_guarded_as_a_call_is(commands: Commands) -> None:
    assert commands([(0, "<up>"), (600, "<up>")], can_change_time=True) == [AddTime(1)]
    assert commands("<up><down>", can_change_time=True) == [AddTime(1), AddTime(-1)]
    assert commands([(0, "<space>"), (1_300, "<space>")]) == [HoldClock(), HoldClock()]
