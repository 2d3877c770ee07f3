"""Why a text is in one row: only what comes first may have its room, and what that is is found."""

import pytest

from readable.made_class import Kind, Seen, Size
from readable.marked_look import Ledger
from readable.reason import NO_ROOM, why_small
from readable.room_texts import Role, Wanted

NAMES = Wanted("name", ("Benjamin",) * 12)
MOVE = Wanted("movement", ("12 row",))


def running(columns: int, rows: int, *wanted: Wanted) -> Seen:
    clock = Wanted("clock", ("10:00",))
    return Seen(Kind(12, 8), "running", Size(columns, rows), ((),), (clock, *wanted), Ledger())


@pytest.mark.parametrize(
    ("columns", "rows", "role", "small", "reason"),
    [
        # In 40 columns all stands under each other: the clock has 5 rows (1.5 x 3), the movement 3,
        # twelve names 36, and the foot one.
        (40, 45, "movement", ["movement"], None),
        (40, 45, "name", ["name"], None),
        # A row less, and either is in one row: one text rather than twelve.
        (40, 44, "movement", ["movement"], "else name would be"),
        (40, 44, "name", ["name"], None),
        # Names have no room in letters here; in one row they have, and the movement its letters.
        (40, 21, "name", ["name"], NO_ROOM),
        (40, 21, "movement", ["name", "movement"], None),
    ],
)
def test_what_holds_the_room_is_named_if_it_comes_first(
    columns: int, rows: int, role: Role, small: list[Role], reason: str | None
) -> None:
    assert why_small(running(columns, rows, NAMES, MOVE), role, small) == reason


def test_a_key_alone_is_no_gain() -> None:
    keys = Wanted("key", tuple("abcdefghijkl"))
    screen = running(60, 18, keys, NAMES)
    assert why_small(screen, "key", ["key", "name"]) == NO_ROOM


def test_a_movement_of_two_lines_counts_once_and_each_name_by_itself() -> None:
    moves, word = Wanted("movement", ("12 row", "9 push")), Wanted("word", ("TIME",))
    # With a movement more than in the table above a row is lacking again.
    assert why_small(running(40, 47, NAMES, moves), "name", ["name"]) is None
    screen = running(40, 14, word, moves)  # the clock, 5, TIME and one line, 3, one in one row each
    assert why_small(screen, "movement", ["movement"]) == "else word would be"


def test_what_the_room_must_do_next_goes_before_any_number_of_scores() -> None:
    asked, tallies = Wanted("next", ("Noor: odd reps?",) * 2), Wanted("tally", ("6",) * 12)
    # Names and scores, two beside each other, have 18 rows, and the questions 6.
    screen = Seen(Kind(12, 8), "settle", Size(80, 22), ((),), (asked, tallies, NAMES), Ledger())
    assert why_small(screen, "name", ["name", "tally"]) == "else next would be"
