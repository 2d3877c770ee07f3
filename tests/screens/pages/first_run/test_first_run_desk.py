"""The first run without a screen: the unit, the keyboard, the emergency card."""

from pathlib import Path

import pytest

from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.pages.first_run.first_run_desk import FirstRunDesk
from classclock.screens.pages.first_run.first_run_drawing import draw_first_run
from classclock.screens.pages.first_run.first_run_words import asked

PLAIN = Look(SIXTEEN, Terminal(16, None))
FRENCH = "&é\"'(-è_çà"  # the unshifted digit row, from memory
SKIPPED = ("<enter>",) * 4
"""Enter on every line of the emergency card, all of them empty."""


def typed(*signs: str) -> FirstRunDesk:
    desk = FirstRunDesk(CardDesk(Emergency()))
    for sign in signs:
        assert not desk.sign(sign), "only the last enter writes"
    return desk


def test_a_plain_keyboard_is_asked_three_keys_and_left_as_it_is() -> None:
    desk = typed("l", "6", ".", "-", *SKIPPED)
    assert desk.unit == "lb"
    assert desk.keyboard == {}
    assert desk.question == "done"
    assert desk.sign("<enter>")


def test_a_keyboard_whose_digits_need_shift_is_offered_its_row() -> None:
    assert typed("k", "-").question == "offer"
    desk = typed("k", "-", "<enter>", *FRENCH, ";", ")", *SKIPPED)
    assert desk.question == "done"
    assert desk.keyboard["-"] == "6"
    assert desk.keyboard[")"] == "-"
    assert "loads in kilograms" in asked(desk).why.lower()


def test_a_key_that_is_a_digit_now_cannot_be_minus_too() -> None:
    desk = typed("k", "-", "<enter>", *FRENCH, ";", "-")
    assert desk.question == "minus"
    assert desk.notice.startswith("that key is 6")


def test_no_letter_is_taken_for_a_digit() -> None:
    desk = typed("k", "y")
    assert desk.question == "six"
    assert desk.notice == "press the key with 6 on it"


def test_every_answer_can_be_taken_back() -> None:
    desk = typed("k", "-", "<enter>", "&", "x", "<backspace>", "&", "é", "<backspace>")
    assert desk.row == "&"
    for _ in range(4):
        desk.sign("<backspace>")
    assert desk.question == "unit"
    for sign in ("l", "6", ".", "-"):
        desk.sign(sign)
    assert desk.unit == "lb"
    assert desk.keyboard == {}


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (213, 60)])
def test_every_question_fits_every_window(tmp_path: Path, size: tuple[int, int]) -> None:
    desk = FirstRunDesk(CardDesk(Emergency()))
    for sign in ("k", "-", "<enter>", *FRENCH, ";", ")", *SKIPPED, "<enter>"):
        text = " ".join(
            plain_text(draw_first_run(desk, tmp_path / "club.toml", *size, PLAIN)).split()
        )
        assert asked(desk).question in text
        assert asked(desk).keys in text
        desk.sign(sign)


def test_the_emergency_card_is_asked_line_by_line_and_come_back_to() -> None:
    desk = typed(
        "k", "6", ".", "-", *"0 Points", "<space>", *"Row", "<enter>", "<enter>", "<enter>"
    )
    assert asked(desk).question == "Which number do you call?"
    typed_on = (*"11", "<backspace>", *"12", "<enter>")
    assert not any(desk.sign(sign) for sign in typed_on)
    assert desk.question == "done"
    assert desk.card.card == Emergency(address="0 Points Row", call="112")
    lacking = "The emergency card lacks the defibrillator and the first-aid kit"
    assert lacking in asked(desk).why
    desk.sign("<backspace>")
    for sign in ("<up>", "<escape>", "<up>"):
        assert not desk.sign(sign)
    assert asked(desk).question == "Where are you?"
    desk.sign("<escape>")
    assert asked(desk).question == "Press - without shift."
    desk.sign("-")
    assert desk.card.card == Emergency(address="0 Points Row", call="112"), "nothing typed is lost"
