"""Which letters come out whole: asked once in a terminal that isn't known, and remembered."""

import unicodedata
from pathlib import Path

import pytest

from classclock.club.letters_file import dots_for, read_letters
from classclock.machine.terminal import Terminal
from classclock.machine.terminal_kinds import TerminalKind
from classclock.plan.settings.club import Club, Tv
from classclock.screens import flows
from classclock.screens.app import ClassclockApp
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.pages.first_run.first_run_screen import FirstRunScreen
from classclock.screens.pages.first_run.letters_desk import QUESTION, LettersDesk
from classclock.screens.pages.first_run.letters_drawing import draw_letters_question
from classclock.screens.pages.first_run.letters_screen import LettersScreen
from classclock.units.cell_dots import CellDots

UNKNOWN = TerminalKind("plain-term")
HALVES = Look(SIXTEEN, Terminal(16, "halves"))


def home(
    folder: Path, kind: TerminalKind | None = UNKNOWN, club: Club | None = None
) -> ClassclockApp:
    async def flow(app: ClassclockApp) -> str:
        return await flows.home_then_class(app, folder=folder, club=club or Club())

    return ClassclockApp(HALVES, flow, kind)


@pytest.mark.parametrize(("key", "dots"), [("a", "sextants"), ("B", "quadrants"), ("c", "halves")])
async def test_an_unknown_terminal_is_asked_about_once(
    tmp_path: Path, key: str, dots: CellDots
) -> None:
    app = home(tmp_path)
    async with app.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(app.screen, LettersScreen)
        await pilot.press("x")
        assert app.screen.desk.notice == "a, b or c; c if you can't tell"
        await pilot.press(key)
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)
        assert app.look.terminal == Terminal(16, dots)
    assert read_letters(tmp_path) == {"plain-term": dots}
    again = home(tmp_path)
    async with again.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(again.screen, FirstRunScreen)
    other = home(tmp_path, TerminalKind("other-term"))
    async with other.run_test(size=(120, 36)) as pilot:
        await pilot.pause()
        assert isinstance(other.screen, LettersScreen)
        await pilot.press("a")
    assert read_letters(tmp_path) == {"plain-term": dots, "other-term": "sextants"}


async def test_escape_goes_on_with_half_blocks_and_asks_again_next_time(tmp_path: Path) -> None:
    app = home(tmp_path)
    async with app.run_test(size=(60, 18)) as pilot:
        await pilot.pause()
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)
    assert read_letters(tmp_path) == {}


async def test_ctrl_q_leaves(tmp_path: Path) -> None:
    app = home(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("ctrl+q")
    assert app.return_value == ""


@pytest.mark.parametrize(
    ("kind", "club"),
    [
        (None, Club()),
        (TerminalKind("VTE", "sextants"), Club()),
        (UNKNOWN, Club(tv=Tv(letters="quadrants"))),
    ],
)
async def test_what_is_known_or_was_said_is_not_asked(
    tmp_path: Path, kind: TerminalKind | None, club: Club
) -> None:
    app = home(tmp_path, kind, club)
    async with app.run_test() as pilot:
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)


async def test_an_answer_that_cannot_be_kept_says_so_and_escape_goes_on(tmp_path: Path) -> None:
    (tmp_path / "letters.json").mkdir()
    app = home(tmp_path)
    async with app.run_test() as pilot:
        await pilot.pause()
        await pilot.press("a")
        assert isinstance(app.screen, LettersScreen)
        assert "can't be written" in app.screen.desk.notice
        await pilot.press("escape")
        await pilot.pause()
        assert isinstance(app.screen, FirstRunScreen)


@pytest.mark.parametrize("size", [(60, 18), (120, 36), (213, 60)])
def test_the_name_stands_there_in_all_three_ways(tmp_path: Path, size: tuple[int, int]) -> None:
    drawn = draw_letters_question(
        LettersDesk("plain-term"), tmp_path / "letters.json", *size, HALVES
    )
    text = plain_text(drawn)
    said = " ".join(text.split())
    assert QUESTION.question in said or size != (60, 18)
    assert QUESTION.keys in said
    names = {unicodedata.name(sign, "") for sign in text}
    assert any(name.startswith("BLOCK SEXTANT") for name in names)
    assert any(name.startswith("QUADRANT") for name in names)
    assert "UPPER HALF BLOCK" in names


def test_the_club_has_the_last_word_then_what_is_known_then_what_was_remembered(
    tmp_path: Path,
) -> None:
    (tmp_path / "letters.json").write_text('{"VTE": "halves", "plain-term": "quadrants"}')
    known = TerminalKind("VTE", "sextants")
    assert dots_for(Club(tv=Tv(letters="halves")), tmp_path, known) == "halves"
    assert dots_for(Club(), tmp_path, known) == "sextants"
    assert dots_for(Club(), tmp_path, UNKNOWN) == "quadrants"
    assert dots_for(Club(), tmp_path, TerminalKind("other-term")) == "halves"


@pytest.mark.parametrize("text", ["", "[]", '{"plain-term": "eighths"}', "{", "\xff"])
def test_a_damaged_memory_is_none(tmp_path: Path, text: str) -> None:
    (tmp_path / "letters.json").write_text(text, "latin-1")
    assert read_letters(tmp_path) == {}
