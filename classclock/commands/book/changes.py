"""`book changes`: what was changed in the book, when, and by which number it is taken back."""

import argparse
from collections.abc import Iterator, Mapping, Sequence
from datetime import datetime
from typing import Any

from classclock.book.changed_people import names_in
from classclock.book.changing import change_words
from classclock.book.files.changes import Change, Undo
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.people_rules import for_good
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_json
from classclock.machine.standard_streams import say
from classclock.units.printable import printable


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder) as book:
        changes = read_changes(folder).lines if not book.unshared else ()
        with book.reading() as connection:
            names = names_in(connection, changes)
    if asked.json:
        print_json([_values(line, changes, names) for line in _made(changes)])
    else:
        say(*_lines(changes, names))
    return OK


def _made(changes: Sequence[Change]) -> Iterator[Change]:
    return (line for line in changes if not isinstance(line, Undo))


def _lines(changes: Sequence[Change], names: Mapping[str, str]) -> Iterator[str]:
    made = list(_made(changes))
    if not made:
        yield "Nothing was changed yet: imports, names, merges and marks would stand here."
        return
    width = len(str(made[-1].n))
    for line in made:
        gone = _taken_back(line, changes)
        after = f" (taken back {_when(gone)})" if gone else ""
        words = printable(change_words(line, names), longest=200)
        yield f"{line.n:>{width}}  {_when(line.at)}  {words}{after}"
    if any(not _taken_back(line, changes) and not for_good(line) for line in made):
        yield "`classclock book undo NUMBER` takes one back."


def _taken_back(line: Change, changes: Sequence[Change]) -> str:
    """When it was taken back; empty where it counts."""
    return next((one.at for one in changes if isinstance(one, Undo) and one.of == line.n), "")


def _when(at: str) -> str:
    """The day and the time here of a moment in RFC 3339; changes of before say what they say."""
    try:
        return f"{datetime.fromisoformat(at).astimezone():%Y-%m-%d %H:%M}"
    except ValueError:
        return printable(at)


def _values(line: Change, changes: Sequence[Change], names: Mapping[str, str]) -> dict[str, Any]:
    return {
        "n": line.n,
        "at": line.at,
        "change": line.change,
        "words": change_words(line, names),
        "taken_back": _taken_back(line, changes) or None,
    }
