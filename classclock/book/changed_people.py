"""How those are called whom changes are about: as the book has them, or once had."""

from collections.abc import Sequence

from sqlalchemy import Connection

from classclock.book.files.changes import Change
from classclock.book.files.import_lines import Import
from classclock.book.people_rules import people_named
from classclock.book.tables.queries import all_athletes, recorded_names


def names_in(connection: Connection, changes: Sequence[Change]) -> dict[str, str]:
    """By id, for `change_words`, which names nobody of an import."""
    about = people_named(line for line in changes if not isinstance(line, Import))
    now = {one.id: one.name for one in all_athletes(connection)}
    return {**recorded_names(connection, about), **now}
