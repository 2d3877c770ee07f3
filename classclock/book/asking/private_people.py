"""Who keeps loads, rank and bests off the wall, and so off every page that others see."""

from collections.abc import Collection
from pathlib import Path

from classclock.book.files.changes import Changes
from classclock.book.files.changes_file import NAME, ChangesDamagedError
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import people_rules
from classclock.book.tables.applying import rules_in
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import kept_book, now_ns


def kept_off(folder: Path, people: Collection[str]) -> frozenset[str]:
    """Those of a class's people, by their ids, who want it so.

    The club's own changes say it where the book can't be asked.

    Raises:
        ChangesDamagedError: a line of the changes can't be read.
        OSError: they can't be read.
    """
    try:
        with kept_book(folder, now_ns()) as (book, _), book.reading() as connection:
            room, rules = book.room, rules_in(connection)
    except (BookError, ChangesDamagedError, OSError):
        changes = read_changes(folder) if (folder / NAME).exists() else Changes("")
        room, rules = changes.room, people_rules([changes])
    return frozenset(
        one
        for one in people
        if "off the wall" in rules.marks.get(rules.athlete(entry_said(room, one)), ())
    )
