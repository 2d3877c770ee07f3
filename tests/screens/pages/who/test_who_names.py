"""Names at who is here: several in one line, one person in two spellings."""

from collections.abc import Callable

import pytest

from classclock.book.asking.known_people import KnownPerson
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.who.who_desk import WhoDesk
from classclock.screens.pages.who.who_drawing import draw_who
from tests.screens.pages.who.test_who_desk import desk, type_in

__all__ = ["desk"]
COMPOSED, APART = "Zo\u00eb", "Zoe\u0308"
MakeDesk = Callable[..., WhoDesk]


def names(here: WhoDesk) -> list[str]:
    return [person.name for person in here.who.people]


def test_names_with_commas_between_are_so_many_people(desk: MakeDesk) -> None:
    here = desk(KnownPerson("1", "Pavel", "p"))
    type_in(here, "Bea, pavel, Tom")
    assert "+ add Bea, pavel, Tom" in plain_text(draw_who(here, 120, 36, Look()))
    type_in(here, "<enter>")
    assert [(one.id, one.name) for one in here.who.people] == [
        ("new-1", "Bea"),
        ("1", "Pavel"),
        ("new-2", "Tom"),
    ]
    assert here.notice == "Bea, pavel, Tom are here"
    assert here.text == ""


def test_a_comma_at_the_end_waits_for_the_next_name(desk: MakeDesk) -> None:
    here = desk(KnownPerson("1", "Pavel", "p"))
    type_in(here, "Pav,")
    assert [entry.name for entry in here.entries] == ["Pavel", "Pav"]


@pytest.mark.parametrize(
    ("typed", "why"),
    [
        (f"Bea, {COMPOSED}, {APART}", f"{COMPOSED} is typed twice: give one an initial"),
        (f"Bea, {APART.upper()}, Ilse", "Ilse is here already"),
    ],
)
def test_who_is_typed_twice_or_here_is_refused_and_nobody_comes_in(
    desk: MakeDesk, typed: str, why: str
) -> None:
    here = desk()
    type_in(here, "ILSE", "<enter>", typed, "<enter>")
    assert names(here) == ["ILSE"]
    assert here.notice.startswith(why)
    assert here.text == typed


def test_two_spellings_of_one_name_must_differ_before_the_board(desk: MakeDesk) -> None:
    here = desk()
    type_in(here, APART, "<enter>", COMPOSED, "<down>", "<enter>")
    assert names(here) == [COMPOSED, COMPOSED]
    assert type_in(here, "<enter>") == ""
    assert here.notice.startswith(f"two are called {COMPOSED}")


def test_who_is_recorded_in_two_spellings_is_proposed_for_a_merge(desk: MakeDesk) -> None:
    here = desk(KnownPerson("q7", APART, "z"), KnownPerson("q8", COMPOSED, "o"))
    type_in(here, COMPOSED, "<enter>")
    assert [person.id for person in here.who.people] == ["q7"]
    assert here.notice == (
        f"{APART} is here; the book has this name in two spellings: "
        "if they are one person, classclock book merge q8 q7"
    )


def test_two_people_of_one_name_in_one_spelling_are_not(desk: MakeDesk) -> None:
    here = desk(KnownPerson("q7", "Noor", "n"), KnownPerson("q8", "Noor", "o"))
    type_in(here, "Noor", "<enter>")
    assert here.notice == "Noor is here"


def test_who_was_taken_for_new_is_known_by_another_spelling(desk: MakeDesk) -> None:
    here = desk()
    type_in(here, COMPOSED, "<enter>")
    here.know((KnownPerson("q7", APART, "z", 4),))
    assert [(one.id, one.name) for one in here.who.people] == [("q7", APART)]
