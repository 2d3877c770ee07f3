"""`replay`: work the scores out again from a journal, and compare them with the saved ones."""

import argparse
from datetime import datetime
from pathlib import Path

from classclock.book.files.held_file import in_use
from classclock.book.files.journal import Journal, JournalUnreadableError, read_journal
from classclock.book.files.saved_results import DamagedResultsError, ResultsError, saved_for
from classclock.commands.shared.exit_status import FINDINGS, OK, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import say_wrong
from classclock.commands.shared.results import print_results
from classclock.live.replaying import lost_words, replayed
from classclock.machine.standard_streams import say
from classclock.records.class_document import results_document
from classclock.records.differences import differences
from classclock.records.document import ResultsDocument
from classclock.tally.record import ClassRecord


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("journal", help="a file from the club's journals folder")


def do(asked: argparse.Namespace) -> int:
    path = Path(asked.journal)
    journal, record = _read(path)
    if journal.torn:
        say_wrong(f"{path}: the last line is torn, as after a power cut: it is left out")
    if journal.moved is not None:
        say_wrong(f"{path}: this class went on in {journal.moved.to}")
    lost = lost_words(journal, record)
    if lost:
        say_wrong(f"{path}: {lost}")
    document = results_document(record, started=journal.anchors[0].wall, journal=path.name)
    verdict, status = _compared(document, path)
    print_results(document, as_json=asked.json)
    if not asked.json:
        say(*verdict)
        if journal.unfinished and not (lost or journal.moved or in_use(path)):
            at = datetime.fromisoformat(journal.last_wall)
            say(f"The class wasn't closed: its journal ends at {at:%H:%M:%S}.")
    return FINDINGS if lost or journal.moved else status


def _read(path: Path) -> tuple[Journal, ClassRecord]:
    try:
        journal = read_journal(path)
        return journal, replayed(journal)
    except (JournalUnreadableError, ValueError) as error:
        raise FindingsError(error) from None
    except OSError as error:
        raise FindingsError(
            f"{path}: this journal can't be read ({error.strerror}). Check its name."
        ) from None


def _compared(document: ResultsDocument, journal: Path) -> tuple[tuple[str, ...], int]:
    """Whether it equals the saved results, in words, and the exit status."""
    try:
        saved = saved_for(journal)
    except DamagedResultsError as error:
        said = (f"Not as saved in {error.path.name}:", "  the saved results are damaged")
        return said, FINDINGS
    except ResultsError as error:
        return (f"Not compared with {error.path.name}: {error.why}",), FINDINGS
    if saved is None:
        return ("No results file of this class was found to compare with.",), OK
    path, before = saved
    if unequal := differences(document, before):
        return (f"Not as saved in {path.name}:", *(f"  {one}" for one in unequal)), FINDINGS
    return (f"The same as saved in {path.name}.",), OK
