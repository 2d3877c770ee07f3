"""What is pending: shown, lapsing, and never half understood."""

from collections.abc import Callable

import pytest

from classclock.tally.commands import Command, Tap
from classclock.tally.keys.forms import LONGEST
from classclock.tally.keys.key_state import KeyState, lapse, pending_shown

Commands = Callable[..., list[Command]]
Said = Callable[..., str]
Left = Callable[..., str]


def test_what_is_pending_is_shown_with_letters_as_the_keys_show_them() -> None:
    assert pending_shown(KeyState(pending=">n")) == ">N"
    assert pending_shown(KeyState(pending="7+12")) == "7+12"
    assert pending_shown(KeyState()) == ""


def test_it_lapses_four_seconds_after_its_last_sign_and_says_so() -> None:
    state = KeyState(pending="12", since=1_000)
    assert state.lapses_at == 5_000
    assert lapse(state, 4_999) == (state, None)
    dropped, told = lapse(state, 5_000)
    assert dropped.pending == ""
    assert told == "12 lapsed after 4 s: type it again with its letter"


def test_nothing_pending_never_lapses() -> None:
    assert KeyState().lapses_at is None
    assert lapse(KeyState(), 10**9) == (KeyState(), None)


def test_each_sign_gives_it_four_seconds_more(commands: Commands) -> None:
    typed = [(0, "1"), (3_900, "2"), (7_800, "n")]
    assert commands(typed) == commands("12n")


def test_a_late_timer_does_not_let_a_lapsed_number_through(commands: Commands, said: Said) -> None:
    typed = [(0, "12"), (4_000, "n")]
    assert commands(typed) == [Tap("p-noor")]
    assert said(typed).startswith("12 lapsed")


def test_a_refused_letter_does_not_keep_it_alive(commands: Commands) -> None:
    assert commands([(0, "12"), (3_000, "x"), (4_000, "n")]) == [Tap("p-noor")]


def test_escape_drops_what_is_pending(commands: Commands, left: Left) -> None:
    assert left("7+12<escape>") == ""
    assert commands("7+12<escape>n") == [Tap("p-noor")]


@pytest.mark.parametrize(
    "typed",
    ["*12n", "-12n", "/12n", "*-n", "-*n", "7+-n", "12*n", "7+12+n", "3:4:n", "12345n", "1234+n"],
)
def test_what_means_nothing_counts_nothing_rather_than_a_part_of_it(
    commands: Commands, said: Said, typed: str
) -> None:
    assert commands(typed) == []
    assert "means nothing: escape drops it" in said(typed)


def test_a_key_held_down_piles_up_no_more_than_can_be_rubbed_out(left: Left) -> None:
    assert left("1" * 90, gap=40) == "1" * (LONGEST + 1)
    assert left("102.25/" + "5" * 90, gap=40, counts_by="load") == "102.25/55"


def test_a_slip_is_taken_off_and_typing_goes_on(commands: Commands, said: Said) -> None:
    assert "backspace takes off the last sign" in said("7+*")
    assert commands("7+*<backspace>12n") == commands("7+12n")


@pytest.mark.parametrize("sign", ["#", "&", "~", "@", "(", ","])
def test_a_sign_that_means_nothing_says_where_the_keys_are(
    commands: Commands, said: Said, left: Left, sign: str
) -> None:
    assert said(sign) == f"{sign} means nothing here: ? shows the keys"
    assert left(sign) == ""
    assert commands(f"{sign}n") == [Tap("p-noor")]


@pytest.mark.parametrize("key", ["<tab>", "<f9>", "\x1b", "\x00", ""])
def test_a_key_without_a_sign_is_left_alone(
    commands: Commands, said: Said, left: Left, key: str
) -> None:
    assert said([(0, "12"), (10, key)] if key else "12") == ""
    assert left([(0, "12"), (10, key)]) == "12"
