"""Keys as terminals really send them."""

from typing import Any

import pytest


@pytest.mark.real_time
def test_two_hundred_keys_at_once_are_all_counted_or_seen_as_repeats(club: Any) -> None:
    wall = club.piece(speed=1)
    letters = "ibnptusoacde"
    signs = "".join(f"{number // 12 + 1}{letters[number % 12]}" for number in range(100))
    assert len(signs) == 200
    wall.type(signs)
    wall.waits_for(lambda: len(_numbers(club)) == 100, "all numbers in the journal")
    names = club.names()
    given = [(names[event["lane"]][0].lower(), event["reps"]) for event in _numbers(club)]
    assert given == [(letters[number % 12], number // 12 + 1) for number in range(100)]


def _numbers(club: Any) -> list[dict[str, Any]]:
    return [event for event in club.events() if event["event"] == "Numbered"]


@pytest.mark.real_time
def test_a_key_held_down_counts_once(club: Any) -> None:
    wall = club.piece("Noor, Ilse")
    wall.type("n")
    wall.says("Noor, round 1")
    for after in (0.5, *(0.033,) * 40):  # as keyboards repeat: after 500 ms, then every 33 ms
        wall.passes(after)
        wall.type("n")
    wall.shows("n again within 1.2 s: not counted")
    wall.type("i")
    wall.says("Ilse, round 1")
    assert club.taps() == ["Noor", "Ilse"]


@pytest.mark.real_time
def test_capitals_count_as_letters(club: Any) -> None:
    wall = club.piece("Noor, Ilse")
    wall.type("N")
    wall.says("Noor, round 1")


@pytest.mark.real_time
def test_escape_and_a_letter_in_one_read_drop_what_is_pending_and_count_the_letter(
    club: Any,
) -> None:
    wall = club.piece("Noor, Ilse")
    wall.type("12")
    wall.waits_for(lambda: b"12" in wall.painted, "the number to be shown")
    wall.type("\x1bn")
    wall.says("Noor, round 1")
    assert club.taps() == ["Noor"]


@pytest.mark.real_time
@pytest.mark.parametrize(
    "keypad",
    [
        b"\x1bOq\x1bOr",  # 1 and 2 of a keypad in application mode
        b"12",
    ],
)
def test_a_keypads_digits_are_digits(club: Any, keypad: bytes) -> None:
    wall = club.piece("Noor, Ilse")
    wall.type(keypad + b"n")
    wall.says("Noor, 0+12")


@pytest.mark.real_time
def test_keys_typed_ahead_of_the_first_paint_are_not_lost(club: Any) -> None:
    wall = club.start("run", club.plan(), "--athletes", "Noor, Ilse")
    wall.type("?")
    wall.shows("enter starts")
    wall.shows("closes")


@pytest.mark.real_time
@pytest.mark.parametrize("escape", [b"\x1b", b"\x1b[27u"])  # alone, and as some terminals send it
def test_who_is_here_opens_on_ctrl_p_and_closes_on_escape(club: Any, escape: bytes) -> None:
    wall = club.start("run", club.plan(), "--athletes", "Noor, Ilse")
    wall.type(b"\x10i ")
    wall.shows("1 here, 1 has left")
    wall.type(escape)
    wall.shows("enter starts")
    wall.drops("1 here, 1 has left")
    opened, left = club.events()
    assert left["event"] == "PersonLeft"
    assert [one["id"] for one in opened["people"] if one["name"] == "Ilse"] == [left["person_id"]]
