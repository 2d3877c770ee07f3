"""Putting an import of older records into the book's tables."""

from classclock.book.files.changes import Import, ImportedScore
from classclock.book.tables.deriving import Touched
from classclock.book.tables.schema import results, seen
from classclock.book.tables.taking_in import Rows, TableRow, Whose
from classclock.records.result import day_moment
from classclock.records.written_terms import terms_key, tidy_work


def import_rows(rows: Rows, class_key: str, imported: Import) -> Touched:
    """The rows of one import: results, and the people it names, who came to no class by it."""
    touched = Touched()
    named: set[str] = set()
    for number, score in enumerate(imported.scores):
        moment = day_moment(score.day)
        whose = rows.whose(score.athlete)
        if rows.rules.erased(whose.person, moment):
            continue
        touched.add(whose.athlete, score.benchmark)
        rows.add(results, _imported_row(whose, class_key, number, moment, score))
        if whose.person not in named:
            named.add(whose.person)
            rows.add(
                seen,
                {
                    "class_key": class_key,
                    "person": whose.person,
                    "athlete": whose.athlete,
                    "name": score.name,
                    "key": "",
                    "came": False,
                    "day": score.day,
                    "moment": moment,
                },
            )
    return touched


def _imported_row(
    whose: Whose, class_key: str, number: int, moment: int, score: ImportedScore
) -> TableRow:
    work = _as_classes_say_it(score.work)
    return {
        "class_key": class_key,
        "piece": number,
        "lane": 0,
        "person": whose.person,
        "athlete": whose.athlete,
        "name": score.benchmark,
        "called": score.benchmark,
        "benchmark": score.benchmark,
        "day": score.day,
        "moment": moment,
        "score": score.score,
        "kind": score.kind,
        "worth": score.worth,
        "total_reps": None,
        "modification": score.modification,
        "loads": score.loads,
        "work": work,
        "team": 1,
        "terms": terms_key(score.modification, score.loads, work, 1),
        "counts": True,
        "why_not": "",
        "rank": None,
        "status": "imported",
        "note": "",
        "options": "[]",
        "own_options": "[]",
        "splits": "[]",
        "round_reps": "[]",
        "start_station": 0,
    }


def _as_classes_say_it(work: str) -> str:
    """Imports of before kept what the sheet said: `600`, say."""
    try:
        return tidy_work(work, of_a_set=False)
    except ValueError:
        return work
