"""Whom a note is about, as it is typed: `Noor: left knee, stopped`, or `n: …` by the key."""

from collections.abc import Sequence

from msgspec import Struct

from classclock.tally.lanes import Person
from classclock.units.names import name_key


class TypedNote(Struct, frozen=True):
    about: Person | None
    """None: the class."""
    text: str


def typed_note(line: str, people: Sequence[Person]) -> TypedNote:
    """A note as it is typed. What stands before a colon and is nobody's name is part of it."""
    who, colon, text = line.partition(":")
    about = _meant(who, people) if colon else None
    return TypedNote(about, " ".join((text if about else line).split()))


def _meant(who: str, people: Sequence[Person]) -> Person | None:
    wanted = name_key(who)
    named = (one for one in people if wanted and wanted in (name_key(one.name), one.key))
    # A name comes before a key: somebody may be called A.
    return min(named, key=lambda one: name_key(one.name) != wanted, default=None)
