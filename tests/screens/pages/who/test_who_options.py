"""What the digits mean before a class, and what comes of them."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.model import Plan
from classclock.plan.reading.plan_reading import parse_plan
from classclock.screens.pages.who.who_choices import WhoChoices
from classclock.screens.pages.who.who_options import WhoOptions
from classclock.screens.people.option_digits import MOST_DIGITS

TWO_PIECES = """
title = "Sandbox Sunday"
[[segment]]
name = "Sandbox"
format = "rounds-in-time"
time = "12:00"
  [[segment.station]]
  movement = "row"
  reps = 8
  options = ["a", "b", "c", "d", "e", "f", "g", "h", "i", "j", "k"]
[[segment]]
name = "Third Rail"
format = "rounds-in-time"
time = "8:00"
  [[segment.station]]
  movement = "dumbbell push press"
  reps = 9
  load = { heavier = "22.5 kg", lighter = "15 kg" }
"""
PLAIN = 'title = "T"\n[[segment]]\nname = "W"\nformat = "countdown"\ntime = "8:00"\n'


def read(text: str) -> Plan:
    plan, findings = parse_plan(text, "t.toml")
    assert plan is not None, findings
    return plan


@pytest.fixture
def choices() -> WhoChoices:
    return WhoChoices(read(TWO_PIECES), "kg")


def test_nine_options_have_digits_at_a_time_and_more_goes_round(choices: WhoChoices) -> None:
    options = WhoOptions(choices)
    piece = options.piece
    assert piece is not None
    pages = []
    for _ in range(3):
        pages.append(options.shown(piece))
        options.more()
    assert pages == [range(1, MOST_DIGITS + 1), range(10, 12), range(1, MOST_DIGITS + 1)]


def test_the_next_piece_has_the_digits_and_begins_with_its_first_options(
    choices: WhoChoices,
) -> None:
    options = WhoOptions(choices)
    first = options.piece
    assert first is not None
    assert options.next_load("ilse") == "the plan offers one load here, or none"
    options.more()
    options.next_piece()
    assert options.digit("ilse", 1) == "this plan has no options"
    assert options.next_load("ilse") == ""
    options.next_piece()
    assert options.piece is first
    assert options.shown(first).start == 1
    assert choices.in_segment(1)["ilse"].load == "heavier"
    assert choices.in_segment(0) == {}


def test_a_plan_without_options_says_so() -> None:
    options = WhoOptions(WhoChoices(read(PLAIN), "kg"))
    assert options.piece is None
    options.next_piece()
    options.more()
    assert options.digit("ilse", 1) == "this plan has no options"
    assert options.next_load("ilse") == "the plan offers one load here, or none"


@given(st.lists(st.integers(0, 9)), st.lists(st.sampled_from(["more", "piece"]), max_size=5))
def test_a_digit_means_what_is_shown_beside_it(digits: list[int], keys: list[str]) -> None:
    choices = WhoChoices(read(TWO_PIECES), "kg")
    options = WhoOptions(choices)
    for key in keys:
        (options.more if key == "more" else options.next_piece)()
    piece = options.piece
    assert piece is not None
    shown = options.shown(piece) if piece.menu else range(0)
    for digit in digits:
        before = choices.of(piece, "ilse").options
        said = options.digit("ilse", digit)
        after = choices.of(piece, "ilse").options
        if not piece.menu or digit > len(shown):
            assert said
            assert after == before
        elif digit:
            station, option = piece.menu[shown[digit - 1] - 1]
            was = before[station] if before else 0
            assert after[station] == (0 if was == option else option)
        else:
            assert not any(after)
