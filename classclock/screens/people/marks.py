"""The marks that remind the coach, in the order of their digits."""

from typing import get_args

from msgspec.structs import replace

from classclock.tally.lanes import Mark, Person

MARKS: tuple[Mark, ...] = get_args(Mark)


def with_mark_turned(person: Person, mark: Mark) -> Person:
    """The same person with this mark, or without it where they had it."""
    marks = tuple(one for one in MARKS if (one in person.marks) != (one == mark))
    return replace(person, marks=marks, newcomer="newcomer" in marks)
