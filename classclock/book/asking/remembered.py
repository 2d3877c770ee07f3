"""People as the book remembers them, for whoever asks who is here."""

from datetime import date

from sqlalchemy import Connection

from classclock.book.asking.known_people import KnownPerson
from classclock.book.tables.queries import last_options, own_people
from classclock.records.result import day_moment

_YEAR = 365 * 24 * 60 * 60 * 1000
"""Milliseconds."""


def remembered_people(connection: Connection) -> tuple[KnownPerson, ...]:
    """The asking room's people, who came last first: as `known_people` has it from results files.

    Names, merges and erasures are as the book has them, and all classes count; options are those
    of the year before the latest class.
    """
    own = sorted(own_people(connection), key=lambda known: known[1].last_day, reverse=True)
    latest = own[0][1].last_day if own else ""
    since = day_moment(latest) - _YEAR if latest else 0
    options = last_options(connection, since)
    return tuple(
        KnownPerson(
            ident,
            one.name,
            one.key,
            one.classes,
            date.fromisoformat(one.last_day) if one.last_day else date.min,
            options.get(one.id, {}),
            one.marks,
        )
        for ident, one in own
    )
