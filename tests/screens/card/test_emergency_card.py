"""The emergency card: what it says in each state, how large, and where it is filled in."""

from collections.abc import Callable
from pathlib import Path
from typing import Any

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.club.settings import read_club
from classclock.demo.sample_class import DEPOT
from classclock.machine.terminal import Terminal
from classclock.plan.settings.club import Club, Emergency
from classclock.screens.canvas.cells import Drawing, plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.terminal_theme import SIXTEEN
from classclock.screens.card.emergency_drawing import MARGIN, draw_card, laid_out
from classclock.screens.card.emergency_lines import FOR_THE_ROOM, first_lines, other_lines
from classclock.screens.card.emergency_screen import EmergencyScreen
from classclock.screens.live.wall.readable import character_height, row_height
from classclock.wall.emergency_words import LONGEST, lacks, lacks_briefly

SIZES = [(60, 18), (80, 24), (120, 36), (213, 60), (240, 70)]
PLAIN = Look(SIXTEEN, Terminal(16, None))
DOTS = Look(SIXTEEN, Terminal(16))
FULL = Emergency(
    address="Line 0 Depot, 0 Points Row",
    defibrillator="in the ticket window",
    first_aid="green box under the route map",
    call="112",
)
PARTLY = Emergency(address="Line 0 Depot, 0 Points Row", call="112")
CARDS = {"full": FULL, "in words": DEPOT.emergency, "partly": PARTLY, "empty": Emergency()}
said_of = st.text(max_size=2 * LONGEST)


def words(card: Emergency, *, before: bool = False) -> str:
    """What stands on it in a window where no letter is drawn."""
    return " ".join(plain_text(draw_card(card, 200, 40, PLAIN, before=before)).split())


def test_an_empty_card_says_what_to_do_now() -> None:
    said = words(Emergency())
    assert said.startswith("Call your local emergency number now. Send someone to the door.")
    assert "Do what the dispatcher says." in said
    assert "club.toml" not in said
    assert "We are at" not in said


def test_a_full_card_says_whom_to_call_where_we_are_and_where_the_help_is() -> None:
    said = words(FULL)
    assert said.startswith("Call 112 now. Send someone to the door. We are at Line 0 Depot")
    for place in ("Defibrillator: in the ticket window", "First-aid kit: green box"):
        assert place in said
    last = [line.words for line in other_lines(FULL, before=True)][-2:]
    assert last == ["Do what the dispatcher says.", "Keep to your local rules and training."]


def test_what_is_known_is_shown_and_what_lacks_is_said() -> None:
    said = words(PARTLY)
    assert "Call 112 now." in said
    assert "We are at Line 0 Depot, 0 Points Row" in said
    assert "The emergency card lacks the defibrillator and the first-aid kit." in said
    assert "not filled in" not in said


@pytest.mark.parametrize(
    ("lacking", "said"),
    [
        (("address",), "the emergency card lacks the address"),
        (("address", "call"), "the emergency card lacks the address and the number to call"),
        (
            ("address", "defibrillator", "call"),
            "the emergency card lacks the address, the defibrillator and the number to call",
        ),
        (tuple(FULL.model_fields_set), "the emergency card is not filled in"),
        ((), ""),
    ],
)
def test_what_lacks_is_named(lacking: tuple[str, ...], said: str) -> None:
    assert lacks(FULL.model_copy(update=dict.fromkeys(lacking, " "))) == said


@pytest.mark.parametrize(
    ("lacking", "said"),
    [
        ((), ""),
        (("call",), "the card lacks the number to call"),
        (("address", "call"), "the card lacks the address and 1 more"),
        (("defibrillator", "first_aid", "call"), "the card lacks the defibrillator and 2 more"),
        (tuple(FULL.model_fields_set), "the card isn't filled in"),
    ],
)
def test_in_few_words_too_a_card_half_filled_in_is_not_called_empty(
    lacking: tuple[str, ...], said: str
) -> None:
    assert lacks_briefly(FULL.model_copy(update=dict.fromkeys(lacking, " "))) == said


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
@pytest.mark.parametrize("size", SIZES)
@pytest.mark.parametrize("look", [Look(), DOTS, PLAIN], ids=["smooth", "dots", "plain"])
def test_the_card_fills_every_size(
    check_filled: Callable[[Drawing, int, int], None],
    card: Emergency,
    size: tuple[int, int],
    look: Look,
) -> None:
    columns, rows = size
    check_filled(draw_card(card, columns, rows - 2, look, before=False), columns, rows - 2)


@given(
    st.builds(Emergency, address=said_of, defibrillator=said_of, first_aid=said_of, call=said_of),
    st.sampled_from([DOTS, PLAIN]),
)
def test_nothing_that_matters_is_left_out_whatever_the_club_wrote(
    check_filled: Callable[[Drawing, int, int], None], card: Emergency, look: Look
) -> None:
    check_filled(draw_card(card, 120, 34, look, before=False), 120, 34)
    said = words(card)
    for line in (*first_lines(card), *other_lines(card, before=False)):
        assert " ".join(line.words.split()) in said


@pytest.mark.parametrize("card", CARDS.values(), ids=CARDS)
@pytest.mark.parametrize("size", [(60, 18), (120, 36), (213, 60)])
def test_nothing_is_larger_than_the_first_line_which_is_read_from_ten_metres(
    card: Emergency, size: tuple[int, int]
) -> None:
    # 16' of arc is the least (ISO 9241-3), a 55-inch TV; letters of dots have 15.3 of them in 36
    # rows. A capital takes 660 of an outline word's 917 units, and 7 of the 9 dots that a word of
    # three rows is high.
    columns, rows = size[0] - 2 * MARGIN, size[1] - 2
    sizes = laid_out(card, columns, rows, Look(), before=False).sizes
    share = 660 / 917 if sizes["call"] > 3 else 7 / 9
    assert sizes["call"] * share * row_height(55, size[1]) >= character_height(10, 15)
    assert sizes["call"] >= max(sizes[group] for group in FOR_THE_ROOM if group in sizes)
    if size[1] >= 36:
        assert min(sizes[group] for group in FOR_THE_ROOM if group in sizes) >= 3, "all is drawn"


async def test_before_a_class_tab_on_the_card_asks_its_lines_and_writes_them(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(club=Club(emergency=PARTLY)) as coach:
        await coach.press("exclamation_mark")
        assert "tab: fill in the card" in coach.seen()
        await coach.press("tab")
        asked = coach.pilot.app.screen
        assert isinstance(asked, EmergencyScreen)
        await coach.press("enter", *"left of the door", "enter", *'"box"', "enter", "enter")
        assert coach.pilot.app.screen is coach.screen
        full = PARTLY.model_copy(update={"defibrillator": "left of the door", "first_aid": '"box"'})
        assert coach.screen.overlays.card.card == full
        assert "tab: fill in" not in coach.seen()
        assert read_club(tmp_path / "club.toml") == (Club(emergency=full), ())
        await coach.press("escape")
        assert "emergency card lacks" not in coach.seen()
        await coach.start()
        await coach.press("exclamation_mark")
        assert coach.screen.overlays.card.card == full
        assert coach.live.phase == "held"


async def test_while_a_class_runs_the_card_says_nothing_of_filling_it_in(open_class: Any) -> None:
    async with open_class(size=(60, 18), look=PLAIN, club=Club()) as coach:
        await coach.press("enter")
        await coach.press("exclamation_mark")
        assert coach.live.phase == "board", "the count-in is called off"
        assert "tab:" not in coach.seen()
        await coach.press("escape")
        await coach.wind(2)
        await coach.start()
        await coach.press("exclamation_mark", "tab")
        assert coach.pilot.app.screen is coach.screen
        seen = " ".join(coach.seen().split())
        assert seen.startswith("Call your local emergency number now. Send someone to the door.")
        assert "If a clock ran, it is held: space resumes." in seen
        assert "The emergency card is not filled in." in seen
        assert "tab:" not in seen
        await coach.press("escape", "enter")
        await coach.wind(2)
        await coach.press("enter")
        assert coach.live.phase == "board"
        await coach.reads("the card isn't filled in")
        assert "tab:" not in coach.seen()


async def test_escape_at_its_first_line_leaves_the_card_as_it_is(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(club=Club()) as coach:
        await coach.press("exclamation_mark", "tab", *"0 Points Row", "enter", "escape", "escape")
        assert coach.pilot.app.screen is coach.screen
        assert coach.screen.overlays.card.card == Emergency()
        assert not (tmp_path / "club.toml").exists()


async def test_what_keeps_the_card_from_being_written_is_said(
    open_class: Any, tmp_path: Path
) -> None:
    async with open_class(club=Club()) as coach:
        (tmp_path / "club.toml").write_text('unit = "kg"\nunit = "lb"\n')
        await coach.press("exclamation_mark", "tab", *["enter"] * 4)
        asked = coach.pilot.app.screen
        assert isinstance(asked, EmergencyScreen)
        assert "put club.toml right first, line 2" in coach.pilot.app.screen.desk.notice
        (tmp_path / "club.toml").unlink()
        await coach.press("enter")
        assert coach.pilot.app.screen is coach.screen
