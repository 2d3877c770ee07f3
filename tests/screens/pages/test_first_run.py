"""The first run: the unit, the keyboard, the emergency card, and the file that is written."""

from pathlib import Path

import pytest
from textual import events

from classclock.club.settings import read_club
from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Club, Emergency
from classclock.screens import flows
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.theme import SIXTEEN
from classclock.screens.pages.first_run.first_run_desk import FirstRunDesk
from classclock.screens.pages.first_run.first_run_screen import FirstRunScreen, FirstRunView
from classclock.screens.pages.home.home_screen import HomeScreen

PLAIN = Look(SIXTEEN, Terminal(true_colour=False, block_characters=False, sextants=False))
FRENCH = "&é\"'(-è_çà"  # the unshifted digit row, from memory
SKIPPED = ("<enter>",) * 4
"""Enter on every line of the emergency card, all of them empty."""


def typed(*signs: str) -> FirstRunDesk:
    desk = FirstRunDesk()
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
    assert "loads in kilograms" in desk.asked().why.lower()


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
    desk = FirstRunDesk()
    view = FirstRunView(PLAIN, desk, tmp_path / "club.toml")
    for sign in ("k", "-", "<enter>", *FRENCH, ";", ")", *SKIPPED, "<enter>"):
        text = " ".join(plain_text(view.paint(*size)).split())
        assert desk.asked().question in text
        assert desk.asked().keys in text
        desk.sign(sign)


async def test_home_asks_once_and_writes_settings_with_what_each_means(tmp_path: Path) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)
        await pilot.press("l", "6", "full_stop", "minus", *["enter"] * 5)
        await pilot.pause()
        home = app.screen
        assert isinstance(home, HomeScreen)
        assert home.club.unit == "lb"
        assert "# " in (tmp_path / "club.toml").read_text()
        assert (tmp_path / "club.toml").stat().st_mode & 0o077 == 0
    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen), "it asks once"


def test_the_emergency_card_is_asked_line_by_line_and_come_back_to() -> None:
    desk = typed(
        "k", "6", ".", "-", *"0 Points", "<space>", *"Row", "<enter>", "<enter>", "<enter>"
    )
    assert desk.asked().question == "Which number do you call?"
    typed_on = (*"11", "<backspace>", *"12", "<enter>")
    assert not any(desk.sign(sign) for sign in typed_on)
    assert desk.question == "done"
    assert desk.card.card == Emergency(address="0 Points Row", call="112")
    lacking = "The emergency card lacks the defibrillator and the first-aid kit"
    assert lacking in desk.asked().why
    desk.sign("<backspace>")
    for sign in ("<up>", "<escape>", "<up>"):
        assert not desk.sign(sign)
    assert desk.asked().question == "Where are you?"
    desk.sign("<escape>")
    assert desk.asked().question == "Press - without shift."
    desk.sign("-")
    assert desk.card.card == Emergency(address="0 Points Row", call="112"), "nothing typed is lost"


async def test_what_is_typed_and_pasted_stands_on_the_card_and_escape_loses_nothing(
    tmp_path: Path,
) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(60, 18)) as pilot:
        await pilot.pause()
        app.screen.post_message(events.Paste("a question that takes no text"))
        await pilot.press("k", "6", "full_stop", "minus")
        app.screen.post_message(events.Paste('Line 0 "Depot"\n0 Points Row\\'))
        await pilot.pause()
        await pilot.press("enter", "escape", "enter", *["enter"] * 4)
        await pilot.pause()
        home = app.screen
        assert isinstance(home, HomeScreen)
        assert home.club.emergency == Emergency(address='Line 0 "Depot" 0 Points Row\\')
        assert read_club(tmp_path / "club.toml") == (Club(emergency=home.club.emergency), ())
        lacking = "the emergency card lacks the defibrillator, the first-aid kit and"
        assert lacking in " ".join(plain_text(home.view.paint(120, 36)).split())


async def test_putting_it_off_writes_nothing(tmp_path: Path) -> None:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=tmp_path, club=Club())

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await pilot.press("l", "escape")
        await pilot.pause()
        assert isinstance(app.screen, HomeScreen)
        assert read_club(tmp_path / "club.toml") == (Club(), ())
        assert not (tmp_path / "club.toml").exists()


async def test_a_folder_that_cannot_be_written_is_said(tmp_path: Path) -> None:
    (tmp_path / "club").write_text("a file where the folder should be")
    path = tmp_path / "club" / "club.toml"
    screen = FirstRunScreen(Look(), path)

    async def flow(app: ClassclockApp) -> str:
        await app.push_screen_wait(screen)
        return ""

    app = ClassclockApp(Look(), flow)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        await pilot.press("k", "6", "full_stop", "minus", *["enter"] * 5)
        await pilot.pause()
        assert "it can't be written" in screen.desk.notice
        assert app.screen is screen
