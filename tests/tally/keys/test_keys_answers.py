"""What enter ends: a number that answers, the third newest; and enter from question to question."""

from collections.abc import Callable
from decimal import Decimal
from typing import Any

import pytest

from classclock.tally.commands import (
    Command,
    Next,
    SayGone,
    SetNumber,
    StopLane,
    TakeBack,
    TakeOut,
    Tap,
)
from classclock.tally.keys.guard import GUARD_MS
from classclock.tally.scores.questions import ScoreQuestion

ODD = ScoreQuestion("p-noor", "Noor", "n", "not given", "odd reps?", number="odd reps")
INTERVALS = ScoreQuestion(
    "p-noor", "Noor", "n", "not given", "intervals 3, 8?", number="in interval 3", intervals=(3, 8)
)
FAST = ScoreQuestion("p-noor", "Noor", "n", "fast", "round 5 came fast: two taps?")
LOAD = ScoreQuestion("p-noor", "Noor", "n", "load", "825 kg: right?", number="as the load")


@pytest.fixture
def settle(commands: Callable[..., list[Command]]) -> Callable[..., list[Command]]:
    """What keys come to at the settle, one thing being asked first."""

    def typed(keys: Any, asked: ScoreQuestion | None, **context: Any) -> list[Command]:
        return commands(keys, phase="over", asked=asked, **context)

    return typed


@pytest.mark.parametrize(
    ("keys", "asked", "counts_by", "meant"),
    [
        ("5<enter>", ODD, "rounds", SetNumber("p-noor", Decimal(5))),
        ("7+<enter>", ODD, "rounds", SetNumber("p-noor", None, 7)),
        ("7+12<enter>", ODD, "rounds", SetNumber("p-noor", Decimal(12), 7)),
        ("11<enter>", INTERVALS, "intervals", SetNumber("p-noor", Decimal(11), interval=3)),
        ("8:11<enter>", INTERVALS, "intervals", SetNumber("p-noor", Decimal(11), interval=8)),
        ("82.5<enter>", LOAD, "load", SetNumber("p-noor", Decimal("82.5"), instead=True)),
        ("-<enter>", LOAD, "load", TakeOut("p-noor", "load")),
        ("-<enter>", FAST, "rounds", TakeOut("p-noor", "fast")),
        ("12i", ODD, "rounds", SetNumber("p-ilse", Decimal(12))),
        ("<enter>", ODD, "rounds", Next()),
        ("*<enter>", ODD, "rounds", Next(all_stands=True)),
    ],
)
def test_a_number_without_a_letter_answers_what_is_asked_first(
    settle: Callable[..., list[Command]],
    keys: str,
    asked: ScoreQuestion,
    counts_by: str,
    meant: Command,
) -> None:
    assert settle(keys, asked, counts_by=counts_by) == [meant]


@pytest.mark.parametrize(
    ("keys", "asked", "notice"),
    [
        ("12<enter>", None, "12 waits for a letter: escape drops it, then enter"),
        (
            "12<enter>",
            FAST,
            (
                "Noor is asked, round 5 came fast: two taps? Escape drops 12, then enter lets it "
                "stand, - and enter takes it out; 12 and a letter is that one's number"
            ),
        ),
        ("-<enter>", ODD, "Noor: type a number, then enter; enter alone goes on without"),
        ("-<enter>", None, "- waits for a letter: escape drops it, then enter"),
        (":<enter>", ODD, ": waits for a letter: escape drops it, then enter"),
        ("3:<enter>", INTERVALS, "3: waits for the reps of that interval, as in 3:12n"),
        ("12,<enter>", LOAD, "12, waits for a digit, as in 12,5n"),
    ],
)
def test_what_answers_nothing_is_said_and_stays(
    said: Callable[..., str], left: Callable[..., str], keys: str, asked: ScoreQuestion, notice: str
) -> None:
    counts_by = "load" if asked is LOAD else "intervals" if asked is INTERVALS else "rounds"
    context = {"phase": "over", "asked": asked, "counts_by": counts_by}
    assert said(keys, **context) == notice
    assert left(keys, **context) == keys.removesuffix("<enter>")


@pytest.mark.parametrize("phase", ["running", "held", "late"])
def test_before_the_settle_a_number_waits_for_its_letter(
    commands: Callable[..., list[Command]], phase: str
) -> None:
    assert commands("12<enter>", phase=phase, asked=ODD) == []


# -- enter, again ----------------------------------------------------------------


def test_enter_after_another_key_is_the_next_answer_however_soon(
    settle: Callable[..., list[Command]],
) -> None:
    quick = [(0, "<enter>"), (200, "5"), (300, "<enter>"), (400, "0"), (500, "<enter>")]
    assert settle(quick, ODD) == [
        Next(),
        SetNumber("p-noor", Decimal(5)),
        SetNumber("p-noor", Decimal(0)),
    ]
    assert settle([(0, "<enter>"), (200, "i"), (300, "<enter>")], ODD)[::2] == [Next(), Next()]


def test_enter_held_down_goes_on_by_one(
    settle: Callable[..., list[Command]], held_down: Callable[..., list[tuple[int, str]]]
) -> None:
    assert settle(held_down("<enter>", 0, 3_000, 500, 33), ODD) == [Next()]
    answered = [(0, "5"), *held_down("<enter>", 100, 3_000, 660, 40)]
    assert settle(answered, ODD) == [SetNumber("p-noor", Decimal(5))]


def test_a_deliberate_enter_after_the_guard_goes_on(settle: Callable[..., list[Command]]) -> None:
    assert settle([(0, "<enter>"), (GUARD_MS, "<enter>")], ODD) == [Next()]
    assert settle([(0, "<enter>"), (GUARD_MS + 1, "<enter>")], ODD) == [Next(), Next()]


def test_elsewhere_enter_is_guarded_whatever_came_between(
    commands: Callable[..., list[Command]],
) -> None:
    keys = [(0, "<enter>"), (200, "1"), (300, "<escape>"), (400, "<enter>")]
    assert len(commands(keys, phase="board")) == 1


# -- the third newest ------------------------------------------------------------


@pytest.mark.parametrize("phase", ["running", "held", "late", "over"])
@pytest.mark.parametrize("newest", range(1, 10))
def test_a_digit_after_minus_takes_back_that_one_of_the_newest(
    commands: Callable[..., list[Command]], phase: str, newest: int
) -> None:
    assert commands(f"-{newest}<enter>", phase=phase) == [TakeBack(newest=newest)]


@pytest.mark.parametrize(
    ("keys", "notice", "pending"),
    [
        ("-0", "-0 means nothing: backspace takes off the last sign, escape drops it", "-0"),
        ("-12", "-12 means nothing: backspace takes off the last sign, escape drops it", "-12"),
        (
            "-3n",
            "-3 waits for enter: it takes back that one, from the newest; -n is N's last one",
            "-3",
        ),
    ],
)
def test_what_is_none_of_the_newest_is_said(
    said: Callable[..., str], left: Callable[..., str], keys: str, notice: str, pending: str
) -> None:
    assert (said(keys), left(keys)) == (notice, pending)


def test_before_a_start_there_is_nothing_to_take_back(said: Callable[..., str]) -> None:
    for phase in ("board", "count-in"):
        assert said("-3<enter>", phase=phase) == "nothing is counted before the start: enter starts"


def test_minus_and_a_letter_are_what_they_were(commands: Callable[..., list[Command]]) -> None:
    assert commands("-n") == [TakeBack("p-noor")]
    assert commands("-3<backspace>n") == [TakeBack("p-noor")]
    assert commands("-3<escape>n") == [Tap("p-noor")]


# -- who stopped, or leaves ------------------------------------------------------


@pytest.mark.parametrize(
    ("keys", "meant"),
    [
        (".n1", StopLane("p-noor")),
        (".n2", SayGone("p-noor")),
        (".n3<escape>.n1", StopLane("p-noor")),
    ],
)
def test_after_a_piece_a_stop_asks_whether_they_leave(
    settle: Callable[..., list[Command]], keys: str, meant: Command
) -> None:
    assert settle(keys, ODD, alone={"p-noor": "p-noor"}) == [meant]


@pytest.mark.parametrize("phase", ["running", "held", "late"])
def test_while_a_piece_is_on_a_stop_asks_nothing(
    commands: Callable[..., list[Command]], phase: str
) -> None:
    assert commands(".n", phase=phase) == [StopLane("p-noor")]


def test_neither_a_letter_nor_another_digit_answers_it(
    said: Callable[..., str], left: Callable[..., str]
) -> None:
    asks = "1: stopped in it   2: leaves now   escape: neither"
    assert (said(".n3", phase="over"), left(".n3", phase="over")) == (asks, ".n")
    waits = ".n waits for 1, stopped in it, or 2, leaves now"
    assert (said(".ni", phase="over"), left(".ni", phase="over")) == (waits, ".n")
    entered = ".n<enter>"
    assert said(entered, phase="over", asked=ODD) == asks
    assert left(entered, phase="over", asked=ODD) == ".n"
    assert left(".n<escape>", phase="over") == ""


def test_of_a_lane_that_several_share_the_board_says_who_leaves(said: Callable[..., str]) -> None:
    assert said(".n2", phase="over") == (
        "several share that lane: on the next board, . and the letter of who leaves"
    )
