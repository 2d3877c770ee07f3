import re

from hypothesis import given
from hypothesis import strategies as st

from classclock.book.people_ids import (
    drawn_id,
    entry_of,
    entry_said,
    is_drawn,
    is_of,
    new_id,
    said_in,
)
from classclock.records.erased import ERASED

ROOMS = st.text("0123456789abcdef", min_size=1, max_size=16)


def test_an_id_says_nothing_and_is_of_ten_letters_and_digits() -> None:
    drawn = {drawn_id() for _ in range(200)}
    assert len(drawn) == 200
    for ident in drawn:
        assert re.fullmatch(r"[a-z0-9]{10}", ident)
        assert not re.search(r"[aeiou01l]", ident)  # no word, nothing read for something else
        assert is_drawn(ident)


def test_ids_of_before_are_told_from_drawn_ones() -> None:
    for ident in ("max", "class", "zoe-2", "imported-321240", f"{ERASED}0f", "bartholomew"):
        assert not is_drawn(ident)


def test_an_id_that_is_taken_is_drawn_again() -> None:
    drawn = iter(("b2", "c3", "d4"))
    assert new_id({"b2", "c3"}, lambda: next(drawn)) == "d4"


@given(ROOMS, ROOMS, st.text(min_size=1))
def test_what_is_said_in_a_room_means_the_same_person_there(
    room: str, other: str, ident: str
) -> None:
    """Ids of before may be anything: a stroke in one must not make it another room's."""
    entry = entry_of(other, ident)
    assert entry_said(room, said_in(room, entry)) == entry
    assert is_of(other, entry)
    assert is_of(room, entry) == (room == other)


@given(ROOMS, st.text(st.characters(exclude_characters="/"), min_size=1))
def test_ones_own_people_go_by_their_id_alone(room: str, ident: str) -> None:
    assert said_in(room, entry_of(room, ident)) == ident
