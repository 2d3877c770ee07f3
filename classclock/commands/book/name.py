"""`book name`: say who a visitor of a class was; from then on they are in the book."""

import argparse
from pathlib import Path

from classclock.book.changing import write_down
from classclock.book.entering import bring_in
from classclock.book.files.changes import Merge
from classclock.book.files.saved_results import ResultsError, newest_file, read_results
from classclock.book.naming import NotNamedError, name_in_class, visitor_in
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import Athlete, find
from classclock.clock.source import local_now
from classclock.club.folder import results
from classclock.commands.shared.book import asked_book, asked_name, say_if_not_yet, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer
from classclock.machine.interrupting import uninterrupted
from classclock.records.document import ResultsDocument
from classclock.tally.lanes import Person


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("visitor", help='who, as the results say: "visitor 1", or 1')
    parser.add_argument("name", help="what they are called")
    parser.add_argument("--results", metavar="FILE", help="of which class; the latest unless named")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    name = asked_name(asked.name)
    with asked_book(folder, whole=True) as book:
        path, document = _class(asked.results, results(folder))
        known = _known(book, name)
        if known is not None and known.id in {one.id for one in document.people}:
            raise BadUseError(f"{known.name} was in that class too: add an initial to the name")
        with uninterrupted():
            person, words, why = _named(book, (path, document), known, asked.visitor, name)
    athlete = person.id if known is None else known.id
    print_answer({"athlete": athlete, "name": person.name}, words, as_json=asked.json)
    say_if_not_yet(why)
    return OK


def _named(
    book: Book,
    held: tuple[Path, ResultsDocument],
    known: Athlete | None,
    visitor: str,
    name: str,
) -> tuple[Person, str, str]:
    """Write the name into the class that was held; who they are, in words, and why not yet."""
    path, document = held
    try:
        was = visitor_in(document, visitor)
        person = name_in_class(book.folder, path, document, was, name)
    except NotNamedError as error:
        raise BadUseError(error) from None
    words = f"{was.name} is {person.name} now, new in the book."
    if known is not None:
        merge = Merge(gone=person.id, kept=known.id, name=known.name)
        write_down(book.folder, [merge], local_now())
        words = (
            f"{was.name} is {known.name}, whom the book knows; "
            "classclock book undo makes two of them again."
        )
    # It may be a class of long ago.
    return person, words, bring_in(book, thorough=True)


def _class(named: str | None, folder: Path) -> tuple[Path, ResultsDocument]:
    try:
        found = (Path(named), read_results(Path(named))) if named else newest_file(folder)
    except ResultsError as error:
        raise FindingsError(error) from None
    if found is None:
        raise FindingsError(f"no results in {folder} yet: they are saved when a class's cap ends")
    return found


def _known(book: Book, name: str) -> Athlete | None:
    """Whom the book has under this name; None where nobody. Raises BadUseError for several."""
    with book.reading() as connection:
        return the_one(connection, name) if find(connection, name) else None
