"""A letter for each athlete: one of their name's where it is free, and it stays theirs."""

import unicodedata
from collections.abc import Collection, Mapping, Sequence
from string import ascii_lowercase

from msgspec import Struct
from msgspec.structs import replace

from classclock.tally.lanes import Person
from classclock.tally.visitors import numbered, visitor
from classclock.units.names import is_unnamed
from classclock.units.searching import WHOLE_LETTERS


class KeyChange(Struct, frozen=True):
    """Two came with one key: the more regular keeps it, and this is the other's."""

    person: Person
    was: str
    now: str


def letters_of(name: str) -> str:
    """The letters a to z of a name, in order, accents folded."""
    plain = unicodedata.normalize("NFKD", name.casefold().translate(WHOLE_LETTERS))
    return "".join(letter for letter in plain if letter in ascii_lowercase)


def propose_key(name: str, taken: Collection[str]) -> str:
    """The first free letter of the name, else the next free in the alphabet.

    Beyond 26 people all are taken and letters come a second time: heats keep them apart.
    """
    letters = letters_of(name)
    for letter in letters + ascii_lowercase:
        if letter not in taken:
            return letter
    return letters[0] if letters else "a"


def free_key(person: Person, taken: Collection[str]) -> str:
    """This person's own key where nobody has it, else a letter that is free."""
    if person.key and person.key not in taken:
        return person.key
    return propose_key(person.name, taken)


def people_named(names: Sequence[str]) -> tuple[Person, ...]:
    """People known by name alone, as for a rehearsal. Their ids are their names."""
    people: list[Person] = []
    for name in names:
        one = numbered(visitor(""), people) if is_unnamed(name) else Person(name, name, "")
        key = propose_key(one.name, {person.key for person in people})
        people.append(replace(one, id=one.name, key=key))
    return tuple(people)


def assign_keys(
    people: Sequence[Person], classes: Mapping[str, int]
) -> tuple[tuple[Person, ...], tuple[KeyChange, ...]]:
    """Everybody with a key of their own, and whose key had to change.

    `classes` says, by id, how many classes each has been to: who comes more often keeps a key that
    two have. Someone without a key yet, `""`, gets one and that is no change.
    """
    regular_first = sorted(people, key=lambda person: -classes.get(person.id, 0))
    owners: dict[str, str] = {}
    for person in regular_first:
        if person.key:
            owners.setdefault(person.key, person.id)
    keys = {owner: key for key, owner in owners.items()}
    for person in regular_first:
        if person.id not in keys:
            keys[person.id] = propose_key(person.name, set(keys.values()))
    assigned = tuple(replace(person, key=keys[person.id]) for person in people)
    changes = tuple(
        KeyChange(now, was.key, now.key)
        for was, now in zip(people, assigned, strict=True)
        if was.key and was.key != now.key
    )
    return assigned, changes
