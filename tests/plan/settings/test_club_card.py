"""The emergency card in the text of `club.toml`: it reads back, and all else stays."""

import tomllib

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.plan.settings.club import Emergency
from classclock.plan.settings.club_card import with_card
from classclock.plan.settings.club_reading import club_in
from classclock.plan.settings.club_text import default_club_text

CARD = Emergency(
    address='Line 0 "Depot", 0 Points Row \\ yard gate',
    defibrillator="in the ticket window",
    first_aid="green box",
    call="112",
)
SETTINGS = {
    "the first settings": default_club_text(),
    "nothing": "",
    "no table of it": '# ours\nunit = "lb"  # pounds\n\n[tv]\ninches = 43\n',
    "half of it": '[emergency] # the card\ncall = "1"\n\n# the wall\n[tv]\ninches = 43\n',
    "an inline table": 'emergency = { address = "x" } # here\n[tv]\ninches = 43\n',
    "dotted keys": 'emergency.address = "x"\nunit = "kg"\n[tv]\ninches = 43\n',
    "lines that end as Windows ends them": 'unit = "lb"\r\n[emergency]\r\ncall = "1"\r\n',
    "no end of the last line": "[emergency]",
    "a line over several": "[emergency]\naddress = '''\na\nb'''\n",
}
lines = st.text(st.characters(exclude_categories=["Cs"]))
"""Any text that UTF-8 has: quotes, backslashes, control signs and those that turn a line round."""


@pytest.mark.parametrize("text", SETTINGS.values(), ids=SETTINGS)
def test_the_card_reads_back_and_all_else_stays(text: str) -> None:
    written = with_card(text, CARD)
    club, findings = club_in(written, "club.toml")
    assert club is not None, findings
    assert club.emergency == CARD
    before, after = tomllib.loads(text), tomllib.loads(written)
    before.pop("emergency", None)
    after.pop("emergency")
    assert after == before
    comments = [line.partition("#")[2] for line in text.splitlines() if "#" in line]
    assert all(comment in written for comment in comments)


@given(st.builds(Emergency, address=lines, defibrillator=lines, first_aid=lines, call=lines))
def test_whatever_is_typed_is_one_string_of_toml(card: Emergency) -> None:
    written = with_card(default_club_text(), card)
    assert tomllib.loads(written)["emergency"] == card.model_dump()
    typed = set(written) - set(default_club_text())
    assert not any(sign < " " or sign == "\x7f" for sign in typed), "no control sign gets through"


def test_a_text_that_is_no_toml_is_refused() -> None:
    with pytest.raises(ValueError, match="line 1"):
        with_card("emergency = [", CARD)


def test_a_line_of_blanks_is_lacking() -> None:
    card = Emergency(address="0 Points Row", first_aid="  ", call="112")
    assert card.lacking == ("defibrillator", "first_aid")
    assert CARD.lacking == ()
