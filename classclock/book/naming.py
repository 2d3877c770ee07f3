"""Saying who a visitor was, after the class: in its journal, its results, and so the book."""

from collections.abc import Sequence
from pathlib import Path

from msgspec import UNSET
from msgspec.structs import replace

from classclock.book.files.event_lines import event_line
from classclock.book.files.held_file import in_use
from classclock.book.files.journal import Journal, JournalUnreadableError, read_journal
from classclock.book.files.results_writing import write_document
from classclock.book.tables.book_lock import book_lock
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import write_whole
from classclock.records.document import LaneResults, PersonInClass, ResultsDocument
from classclock.tally.events import PersonChanged
from classclock.tally.lanes import Lane, Person
from classclock.tally.refusal import Refusal
from classclock.tally.visitors import named, visitor, visitor_called


class NotNamedError(ValueError):
    """A visitor can't be given that name; `str` says why, and what to do."""


def visitor_in(document: ResultsDocument, who: str) -> Person:
    """The visitor of this name or number in a class. Raises NotNamedError."""
    found = visitor_called(who, map(_person, document.people))
    if isinstance(found, Refusal):
        raise NotNamedError(found.text)
    return found


def name_in_class(
    folder: Path, path: Path, document: ResultsDocument, who: Person, name: str
) -> Person:
    """Write down that a class's visitor has this name; who they are then.

    `folder` is the club's; `path` holds the results. First the journal, so that it never tells of
    a class otherwise than the results do for longer than a moment.

    Raises:
        NotNamedError: the name can't be given, or the class runs.
        OSError: the files can't be read or written.
    """
    known = named(who, name, [_person(one) for one in document.people])
    if isinstance(known, Refusal):
        raise NotNamedError(known.text)
    written = path.parent.parent / "journals" / document.journal
    with book_lock(folder):
        journal = _journal(written)
        if journal is not None:
            _write_behind(journal, known)
        write_document(path, _with(document, known))
    return known


def _person(one: PersonInClass) -> Person:
    if not one.visitor:
        return Person(one.id, one.name, one.key)
    return replace(visitor(one.id), name=one.name, key=one.key)


def _journal(path: Path) -> Journal | None:
    """The class's journal; None where it is gone. Raises NotNamedError, OSError."""
    if in_use(path):
        raise NotNamedError("that class runs now: + in it, then visitor 1 = Anna")
    try:
        journal = read_journal(path)
    except FileNotFoundError:
        return None
    except JournalUnreadableError as error:
        raise NotNamedError(str(error)) from None
    if journal.moved is not None:
        raise NotNamedError(f"this class went on in another folder: {journal.moved.to}")
    return journal


def _write_behind(journal: Journal, person: Person) -> None:
    """One more event, at the moment and the time of day of the last: no time goes by in it."""
    at = max(event.at for event in journal.events)
    line = event_line(PersonChanged(at, person), len(journal.events), journal.last_wall)
    write_whole(journal.path, read_file(journal.path)[: journal.whole] + line)


def _with(document: ResultsDocument, person: Person) -> ResultsDocument:
    people = (
        replace(one, name=person.name, visitor=UNSET) if one.id == person.id else one
        for one in document.people
    )
    pieces = (replace(piece, lanes=_called(piece.lanes, person)) for piece in document.pieces)
    return replace(document, people=tuple(people), pieces=tuple(pieces))


def _called(lanes: Sequence[LaneResults], person: Person) -> tuple[LaneResults, ...]:
    return tuple(
        replace(lane, athlete=Lane("", lane.athlete, "", lane.members).called(person).name)
        for lane in lanes
    )
