"""Putting an import into the book's tables: of an old sheet, or of another club's book."""

from collections.abc import Iterable, Sequence
from typing import Any, NamedTuple, TypeVar

from classclock.book.files.import_lines import (
    Import,
    ImportedLift,
    ImportedScore,
    ImportedVisit,
    score_moment,
)
from classclock.book.tables.deriving import Touched
from classclock.book.tables.schema import lifts, results, seen
from classclock.book.tables.taking_in import Rows, TableRow, Whose
from classclock.records.class_entries import benchmark_key
from classclock.records.document import known
from classclock.records.written_terms import terms_key, tidy_work

_Record = TypeVar("_Record")


def import_key(room: str, number: int) -> str:
    """Under which an import of a room stands in the tables; each visit in it has its own below."""
    return f"{room}/import-{number}"


class Records(NamedTuple):
    """Some records of an import, by their numbers in it."""

    scores: Sequence[int]
    visits: Sequence[int]
    lifts: Sequence[int]


def all_records(imported: Import) -> Records:
    return Records(
        range(len(imported.scores)),
        range(len(known(imported.visits, ()))),
        range(len(known(imported.lifts, ()))),
    )


def import_rows(rows: Rows, class_key: str, imported: Import, some: Records) -> Touched:
    """The rows of some records of an import, with all or none of what it has of each person.

    Of an old sheet they are results, and the people it names, who came nowhere. Each visit to a
    class elsewhere stands under a key of its own below `class_key`. All stands in the order of the
    import, by which it is given out again; what was lifted, with its score.
    """
    touched = Touched()
    named: set[str] = set()
    places: dict[tuple[str, int], int] = {}
    for number, score in _numbered(some.scores, imported.scores):
        moment = score_moment(score)
        whose = rows.whose(score.athlete)
        if rows.rules.erased(whose.person, moment):
            continue
        touched.add(whose.athlete, benchmark_key(score.benchmark))
        if score.kind == "load":
            places.setdefault((score.athlete, moment), number)
        rows.add(results, _imported_row(whose, class_key, number, moment, score))
        if whose.person not in named:
            named.add(whose.person)
            rows.add(seen, _named_row(whose, class_key, score, moment))
    for number, visit in _numbered(some.visits, known(imported.visits, ())):
        whose = rows.whose(visit.athlete)
        if not rows.rules.erased(whose.person, visit.moment):
            touched.add(whose.athlete)
            rows.add(seen, _visit_row(whose, f"{class_key}/{number:06}", visit))
    for number, lift in _numbered(some.lifts, known(imported.lifts, ())):
        whose = rows.whose(lift.athlete)
        if not rows.rules.erased(whose.person, lift.moment):
            touched.add(whose.athlete)
            alone = len(imported.scores) + number
            place = places.get((lift.athlete, lift.moment), alone)
            rows.add(lifts, _lift_row(whose, class_key, place, number, lift))
    return touched


def _numbered(numbers: Sequence[int], records: Sequence[_Record]) -> Iterable[tuple[int, _Record]]:
    return ((number, records[number]) for number in numbers)


def _named_row(whose: Whose, class_key: str, score: ImportedScore, moment: int) -> TableRow:
    return {
        "class_key": class_key,
        "person": whose.person,
        "athlete": whose.athlete,
        "name": score.name,
        "key": "",
        "came": False,
        "day": score.day,
        "moment": moment,
        "effort": None,
        "here_s": None,
    }


def _visit_row(whose: Whose, class_key: str, visit: ImportedVisit) -> TableRow:
    effort: Any = known(visit.effort, None)
    here_s: Any = known(visit.here_s, None)
    return {
        "class_key": class_key,
        "person": whose.person,
        "athlete": whose.athlete,
        "name": visit.name,
        "key": visit.key,
        "came": True,
        "day": visit.day,
        "moment": visit.moment,
        "effort": effort,
        "here_s": here_s,
    }


def _lift_row(
    whose: Whose, class_key: str, place: int, number: int, lift: ImportedLift
) -> TableRow:
    return {
        "class_key": class_key,
        "piece": place,
        "lane": 0,
        "person": whose.person,
        "number": number,
        "athlete": whose.athlete,
        "lift": lift.lift,
        "reps": lift.reps,
        "load": lift.load,
        "worth": lift.worth,
        "made": lift.made,
        "settled": lift.settled,
        "counts": False,  # it stands among the scores too, and counts as one of them
        "written": "",
        "day": lift.day,
        "moment": lift.moment,
    }


def _imported_row(
    whose: Whose, class_key: str, number: int, moment: int, score: ImportedScore
) -> TableRow:
    work, team = _as_classes_say_it(score.work), known(score.team, 1)
    why_not, piece = known(score.why_not, ""), known(score.piece, score.benchmark)
    benchmark = benchmark_key(score.benchmark)
    total_reps: Any = known(score.total_reps, None)
    rank: Any = known(score.rank, None)
    return {
        "class_key": class_key,
        "piece": number,
        "lane": 0,
        "person": whose.person,
        "athlete": whose.athlete,
        "name": piece,
        "called": benchmark or benchmark_key(piece),
        "benchmark": benchmark,
        "written": score.benchmark,
        "day": score.day,
        "moment": moment,
        "score": score.score,
        "kind": score.kind,
        "worth": score.worth,
        "total_reps": total_reps,
        "modification": score.modification,
        "loads": score.loads,
        "work": work,
        "team": team,
        "terms": terms_key(score.modification, score.loads, work, team),
        "counts": not why_not and score.worth is not None and bool(benchmark),
        "why_not": why_not,
        "rank": rank,
        "status": known(score.status, "imported"),
        "note": known(score.note, ""),
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
