"""The lines of the emergency card as they are typed: what gets in, and where the keys lead."""

from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.settings.club import Emergency
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.card.emergency_desk import CardDesk
from classclock.screens.card.form_drawing import draw_form
from classclock.units.printable import can_be_shown
from classclock.wall.emergency_words import LONGEST

CARD = Emergency(address="0 Points Row", call="112")
keys = st.sampled_from(["<up>", "<down>", "<left>", "<delete>", "<backspace>", "<space>", "<f5>"])


@given(st.lists(keys | st.characters() | st.text(max_size=300)))
def test_whatever_is_typed_or_pasted_a_line_can_be_shown_and_is_no_longer_than_the_card(
    typed: list[str],
) -> None:
    desk = CardDesk(Emergency())
    for one in typed:
        if len(one) == 1 or one.startswith("<"):
            desk.sign(one)
        else:
            desk.paste(one)
    for said in desk.card.model_dump().values():
        assert len(said) <= LONGEST
        assert can_be_shown(said)
        assert said == said.strip()


def test_a_sign_that_moves_the_cursor_is_refused_and_said() -> None:
    desk = CardDesk(Emergency())
    desk.paste("0 Points\x1b[2J Row\u202e\n")
    assert desk.card.address == "0 Points[2J Row"
    assert "can't be shown" in desk.notice


def test_a_line_that_is_full_says_so() -> None:
    desk = CardDesk(Emergency())
    desk.paste("x" * (LONGEST + 1))
    assert desk.notice == f"a line of the card holds {LONGEST} signs"
    desk.sign("<backspace>")
    assert desk.notice == ""


def test_what_the_card_says_already_is_there_to_be_changed() -> None:
    desk = CardDesk(CARD)
    assert desk.card == CARD
    for sign in ("<home>", "Y", ":", "<space>"):
        assert desk.sign(sign) == ""
    assert desk.card.address == "Y: 0 Points Row"


def test_the_lines_are_gone_through_both_ways_and_left_at_both_ends() -> None:
    desk = CardDesk(CARD)
    assert desk.sign("<escape>") == "before"
    names = [desk.name]
    for sign in ("<enter>", "<down>", "<enter>", "<down>"):
        assert desk.sign(sign) == ""
        names.append(desk.name)
    assert names == ["address", "defibrillator", "first_aid", "call", "call"]
    assert desk.sign("<enter>") == "after"
    assert desk.sign("<up>") == ""
    assert desk.sign("<backspace>") == "", "an empty line is left backwards"
    assert desk.name == "defibrillator"
    assert desk.card == CARD


def test_every_line_is_seen_and_the_one_that_is_typed_has_the_caret() -> None:
    desk = CardDesk(CARD)
    desk.sign("<enter>")
    rows = plain_text(draw_form(desk, 58, Look())).splitlines()
    assert [row.split()[0] for row in rows] == ["address", "▌", "first-aid", "call"]
    assert "0 Points Row" in rows[0]
    assert "112" in rows[3]
