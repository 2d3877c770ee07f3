"""Nothing that the room needs is in one-row text where larger letters would have room.

Nor where they would have it only in the place of what comes first: the table's own reason.

A letter is seen under at least 16 minutes of arc (ISO 9241-3 (1992)); a row of terminal text on a
TV of 55 inches has 4 to 9 of them ten metres away.
"""

from readable.bound import capital
from readable.made_class import Kind, Size, seen
from readable.room_texts import Role
from readable.script import State
from readable.table import lines, shown

LEAST = Size(60, 18)
SIZES = (LEAST, Size(120, 36))
FLOOR: tuple[Role, ...] = (
    *("clock", "key", "tally", "name", "set", "load", "movement"),
    *("word", "next"),
)
"""What is held to it; `word` is HELD, TIME, ALL IN, and a finishing time is a tally."""


async def test_no_text_of_the_room_is_one_row_where_it_could_be_larger() -> None:
    small = [
        shown(line)
        async for screen in seen(Kind(12, 8), SIZES)
        for line in lines(screen)
        if line.role in FLOOR and line.too_small
    ]
    assert small == []


async def test_twenty_names_are_in_drawn_letters_wherever_somebody_looks_for_their_own() -> None:
    drawn = capital(3, "sextants")
    small = [
        shown(line)
        async for screen in seen(Kind(20, 0), (Size(120, 36),))
        for line in lines(screen)
        if line.role == "name" and line.high < drawn
    ]
    assert small == []


async def test_in_the_least_window_all_of_twenty_have_a_page_at_the_end() -> None:
    end: tuple[State, ...] = ("end",)
    async for screen in seen(Kind(20, 0), (LEAST,), end):
        (name,) = (line for line in lines(screen) if line.role == "name")
        assert name.high >= capital(3, "sextants")


async def test_all_in_is_drawn_beside_the_small_clock_of_a_crowded_wall() -> None:
    all_in: tuple[State, ...] = ("all in",)
    async for screen in seen(Kind(26, 8), (LEAST,), all_in):
        (word,) = (line for line in lines(screen) if line.role == "word")
        assert word.high >= capital(3, "sextants")
