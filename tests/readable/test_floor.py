"""Nothing that the room needs is in one-row text where larger letters would have room.

A letter is seen under at least 16 minutes of arc (ISO 9241-3 (1992)); a row of terminal text on a
TV of 55 inches has 4 to 9 of them ten metres away.
"""

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
KEPT_SMALL: frozenset[tuple[State, Role]] = frozenset(
    {
        ("running, scheme", "movement"),
        ("running, lift", "set"),
        ("rest, lift", "set"),
    }
)
"""In the least window the rows that these would need are those of twelve lanes' bars and loads."""

WAITING: tuple[State, Role] = ("held", "movement")
"""Nobody moves while the clock is held: the lanes stay where they are, and keep their ribbons."""


async def test_no_text_of_the_room_is_one_row_where_it_could_be_larger() -> None:
    small = [
        line
        async for screen in seen(Kind(12, 8), SIZES)
        for line in lines(screen)
        if line.role in FLOOR and line.too_small and (line.state, line.role) != WAITING
    ]
    assert [
        shown(line)
        for line in small
        if line.size != LEAST or (line.state, line.role) not in KEPT_SMALL
    ] == []
