"""Names at who is here: several in one line, one person in two spellings."""

from collections.abc import Callable

import pytest

from classclock.book.asking.known_people import KnownPerson
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.who.who_came import who_came
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


# -- people without a name -----------------------------------------------------------


def test_a_question_mark_is_a_visitor_and_each_is_another(desk: MakeDesk) -> None:
    here = desk(KnownPerson("9", "?", "q"))  # as a class of before had put one into the book
    type_in(here, "?")
    assert "+ add a visitor" in plain_text(draw_who(here, 120, 36, Look()))
    type_in(here, "<enter>", "?, Bea, ?", "<enter>")
    assert [(one.id, one.name, bool(one.visitor)) for one in here.who.people] == [
        ("new-1", "visitor 1", True),
        ("new-2", "visitor 2", True),
        ("new-3", "Bea", False),
        ("new-4", "visitor 3", True),
    ]
    assert len({one.key for one in here.who.people}) == 4
    assert type_in(here, "<enter>") == "board"


def test_a_visitor_who_says_their_name_is_somebody_new_or_known(desk: MakeDesk) -> None:
    here = desk(KnownPerson("7", "Ilse", "l", 9, marks=("off the wall",)))
    type_in(here, "?", "<enter>", "1")
    (choice,) = here.who.choices.made.values()
    type_in(here, "<ctrl+e>", "<ctrl+u>", "ilse", "<enter>")
    (ilse,) = here.who.people
    assert (ilse.id, ilse.name, ilse.key, bool(ilse.visitor)) == ("7", "Ilse", "l", False)
    assert ilse.off_the_wall
    assert here.who.choices.made == {(1, "7"): choice}
    type_in(here, "?", "<enter>", "<ctrl+e>", "<ctrl+u>", "Bea", "<enter>")
    bea = here.who.people[-1]
    assert (bea.id, bea.name, bool(bea.visitor), bea.newcomer) == ("new-2", "Bea", False, True)


def test_nobody_is_renamed_to_a_visitor(desk: MakeDesk) -> None:
    here = desk()
    type_in(here, "Bea", "<enter>", "<ctrl+e>", "<ctrl+u>", "?", "<enter>")
    assert names(here) == ["Bea"]


def test_marks_of_a_visitor_are_for_this_class_alone(desk: MakeDesk) -> None:
    here = desk()
    type_in(here, "?", "<enter>", "<f7>", "1", "<f7>", "Bea", "<enter>", "<f7>", "1")
    assert {ident for ident, _ in who_came(here).marked} == {"new-2"}
    assert all("under 18" in one.marks for one in here.who.people)


def test_a_visitor_is_nobody_whom_the_book_knows(desk: MakeDesk) -> None:
    here = desk()
    type_in(here, "?", "<enter>")
    assert not here.who.know((KnownPerson("9", "visitor 1", "v"),))
    assert [one.id for one in here.who.people] == ["new-1"]
