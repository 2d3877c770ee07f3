"""How a class's scores stand beside earlier ones, asked of the book."""

from typing import Any

from sqlalchemy import Connection

from classclock.book.applying import rules_in
from classclock.book.bests import standing
from classclock.book.class_entries import read_class
from classclock.book.queries import history
from classclock.report.class_report import Standings


def class_standings(connection: Connection, document: dict[str, Any]) -> Standings:
    """By piece and lane, for lanes of one athlete on a benchmark.

    Raises:
        NotResultsError: the document isn't results as classclock writes them.
    """
    rules = rules_in(connection)
    entries = [
        entry
        for entry in read_class(document).entries
        if entry.result.benchmark and entry.result.terms.team == 1
    ]
    athletes = {rules.athlete(entry.result.athlete) for entry in entries}
    runs = history(connection, athletes, {entry.result.benchmark for entry in entries})
    return {
        (entry.piece, entry.lane): standing(
            entry.result,
            runs.get((rules.athlete(entry.result.athlete), entry.result.benchmark), ()),
        )
        for entry in entries
    }
