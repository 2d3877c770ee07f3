"""Visitors: people who count without a name, until somebody says who they are."""

import re
from collections.abc import Iterable, Sequence

from msgspec import UNSET
from msgspec.structs import replace

from classclock.tally.lanes import Mark, Person
from classclock.tally.refusal import Refusal
from classclock.units.names import is_unnamed, name_key, tidy_name

_NUMBERED = re.compile(r"visitor ([0-9]+)")


def visitor(ident: str) -> Person:
    """Somebody without a name or a key yet. Nobody knows them: a newcomer, to take care of."""
    return Person(ident, "visitor", "", newcomer=True, marks=("newcomer",), visitor=True)


def numbered(person: Person, others: Iterable[Person]) -> Person:
    """The next of a class's visitors, `visitor 2`; anybody else as they are."""
    if not person.visitor:
        return person
    matches = (_NUMBERED.fullmatch(one.name) for one in others if one.visitor)
    number = 1 + max((int(match[1]) for match in matches if match), default=0)
    return replace(person, name=f"visitor {number}")


def visitors(people: Iterable[Person]) -> tuple[Person, ...]:
    return tuple(person for person in people if person.visitor)


def visitor_called(written: str, people: Iterable[Person]) -> Person | Refusal:
    """The visitor of this name or number; in words who there is where nobody fits."""
    here = visitors(people)
    wanted = name_key(written)
    for person in here:
        if wanted in (person.name, person.name.removeprefix("visitor ")):
            return person
    if not here:
        return Refusal("there is no visitor here: everybody has a name")
    names = ", ".join(person.name for person in here)
    return Refusal(f"which visitor? {names}: as in {here[0].name} = Anna")


def named(
    person: Person, written: str, others: Sequence[Person], marks: Sequence[Mark] | None = None
) -> Person | Refusal:
    """A visitor once somebody says who they are; why not, in words.

    `others` are all the other people of the class; `marks` are those that the book has of them.
    """
    name = tidy_name(written)
    if not person.visitor:
        return Refusal(f"{person.name} has a name already")
    if not name or is_unnamed(name):
        return Refusal(f"a name for {person.name}: as in {person.name} = Anna")
    if any(name_key(one.name) == name_key(name) for one in others if one.id != person.id):
        return Refusal(f"there is a {name} already: add an initial, as in {name} B")
    kept = person.marks if marks is None else tuple(marks)
    return replace(person, name=name, newcomer="newcomer" in kept, marks=kept, visitor=UNSET)
