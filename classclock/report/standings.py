"""How a class's scores stand beside earlier ones, asked of the book."""

from datetime import datetime
from pathlib import Path

from classclock.book.asking.reading_bests import read_own_bests
from classclock.records.class_entries import read_class
from classclock.records.document import ResultsDocument
from classclock.report.class_report import PageStandings


def class_standings(folder: Path, document: ResultsDocument) -> PageStandings:
    """By piece and lane, for lanes of one athlete on a benchmark. `folder` is the club's.

    Raises:
        BookError, ChangesDamagedError, OSError: the book can't be asked.
    """
    read = read_class(document)
    people = {person.id for person in read.people}
    benchmarks = {entry.result.benchmark for entry in read.entries} - {""}
    began = datetime.fromisoformat(document.started)
    return read_own_bests(folder, people, benchmarks, began).standings(document)
