"""`report`: one class as a page, or as text for a message."""

import argparse
from collections.abc import Sequence
from pathlib import Path

from msgspec import to_builtins

from classclock.book.asking.private_people import kept_off
from classclock.book.files.copies import write_copy
from classclock.book.files.saved_results import (
    DamagedResultsError,
    NotResultsError,
    ResultsError,
    newest,
    read_results,
)
from classclock.club.folder import journals, results
from classclock.commands.shared.book import faults_in_words, meet_other_rooms, say_if_forgotten
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError, FindingsError
from classclock.commands.shared.happenings import told_of
from classclock.commands.shared.options import add_club, add_json, add_kept_off
from classclock.commands.shared.printing import print_json, say_left_out, say_wrong
from classclock.machine.standard_streams import say
from classclock.plan.settings.club import Club
from classclock.records.document import ResultsDocument
from classclock.report.class_report import PageStandings, class_report
from classclock.report.class_text import class_lines
from classclock.report.standings import class_standings
from classclock.units.names import name_key


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    add_kept_off(parser)
    parser.add_argument("results", nargs="?", metavar="RESULTS", help="the latest unless named")
    parser.add_argument("--html", metavar="FILE", help="write it as a page")
    parser.add_argument("--notes", action="store_true", help="with the notes of the class")
    parser.add_argument("--text", action="store_true", help="print it, short enough to send")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    meet_other_rooms(folder)
    document = _document(asked.results, results(folder))
    private = _kept_off(folder, document, asked.named)
    say_left_out(len(private))
    notes = _notes(folder, document, club) if asked.notes else ()
    made = class_report(document, _standings(folder, document), club.name, notes, private)
    if asked.json:
        print_json(to_builtins(made))
    elif asked.text or not asked.html:
        say(*class_lines(made))
    if asked.html:
        from classclock.report.class_html import class_html  # noqa: PLC0415  jinja2: 40 ms

        with faults_in_words(folder):
            write_copy(folder, Path(asked.html), class_html(made))
        say_if_forgotten(folder)
        if not asked.text and not asked.json:
            say(asked.html)
    return OK


def _document(named: str | None, folder: Path) -> ResultsDocument:
    """What is in the results file that was named, or in the latest of the folder."""
    try:
        document = read_results(Path(named)) if named else newest(folder)
    except NotResultsError as error:
        raise FindingsError(
            f"{error.path}: this is no results file: name a .json from the club's results folder"
        ) from None
    except DamagedResultsError as error:
        raise FindingsError(f"{error.path}: this results file is damaged: {error.why}") from None
    except ResultsError as error:
        raise FindingsError(error) from None
    if document is None:
        raise FindingsError(f"no results in {folder} yet: they are saved when a class's cap ends")
    return document


def _kept_off(folder: Path, document: ResultsDocument, named: Sequence[str]) -> frozenset[str]:
    """Who is left out: by id those who are kept off the wall, and weren't asked for by name."""
    by_name = {name_key(one.name): one.id for one in document.people}
    if unknown := [name for name in named if name_key(name) not in by_name]:
        here = ", ".join(one.name for one in document.people if one.in_the_book)
        raise BadUseError(f"{unknown[0]} wasn't in this class: there were {here or 'none by name'}")
    with faults_in_words(folder):
        private = kept_off(folder, [one.id for one in document.people if one.in_the_book])
    return private - {by_name[name_key(name)] for name in named}


def _notes(folder: Path, document: ResultsDocument, club: Club) -> tuple[str, ...]:
    """Of accidents and holds a report says nothing: `classclock notes` does."""
    told = told_of(journals(folder) / document.journal, club)
    return tuple(note.text for note in told.of_kind("note"))


def _standings(folder: Path, document: ResultsDocument) -> PageStandings:
    """What the book says; a book that can't be asked is said, and the report goes without."""
    try:
        with faults_in_words(folder):
            return class_standings(folder, document)
    except FindingsError as trouble:
        for line in (*trouble.lines, "the report says nothing of bests this time"):
            say_wrong(line)
        return {}
