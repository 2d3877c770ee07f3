"""What each athlete has lifted, from the club's results files."""

from collections.abc import Iterable, Iterator, Mapping, Sequence
from datetime import date, datetime
from pathlib import Path

from msgspec import Struct

from classclock.book.files.saved_results import DamagedResultsError, ResultsError, read_results
from classclock.records.attempts import reps_of_set, standing_attempts
from classclock.records.class_entries import benchmark_key
from classclock.records.document import PieceResults, ResultsDocument, known
from classclock.strength.class_loads import Handled, LiftHistory
from classclock.strength.maxima import MOST_REPS, Formula, Maximum, maximum
from classclock.units.loads import Load, parse_load
from classclock.units.names import name_key


class LoadMade(Struct, frozen=True):
    """A load made, for a whole set."""

    person_id: str
    lift: str
    load: Load
    reps: int
    on: date


class ClassLifts(Struct, frozen=True):
    """What one class's results say of lifts."""

    people: Mapping[str, str]
    """Display names by id."""
    lifted: tuple[LoadMade, ...]


class LiftRecord(Struct, frozen=True):
    """An athlete's record in one lift."""

    lift: str
    heaviest: LoadMade
    best: Maximum
    """The highest estimate; from sets of few enough reps to be relied on, if there are any."""
    best_on: date


def read_lifts(
    folder: Path, before: datetime | None = None
) -> tuple[tuple[ClassLifts, ...], tuple[ResultsError, ...]]:
    """The lifts in every results file, the oldest first; and why some files can't be read.

    `before`: of classes only that were opened before that.
    """
    classes: list[ClassLifts] = []
    unread: list[ResultsError] = []
    for path in sorted(folder.glob("*.json")):
        try:
            document = read_results(path)
            if before is None or _opened(document) < before:
                classes.append(_class_lifts(document))
        except ResultsError as error:
            unread.append(error)
        except ValueError:
            why = "a load in it is none"
            unread.append(DamagedResultsError(path, why, document.journal))
    return tuple(classes), tuple(unread)


def records_in(made: Iterable[LoadMade], formula: Formula) -> dict[str, LiftRecord]:
    """One athlete's record in each lift, by its name in small letters; the earliest first."""
    by_lift: dict[str, list[LoadMade]] = {}
    for lifted in made:
        by_lift.setdefault(benchmark_key(lifted.lift), []).append(lifted)
    return {lift: _record(every, formula) for lift, every in by_lift.items()}


def lift_history(classes: Sequence[ClassLifts], formula: Formula = "brzycki") -> LiftHistory:
    """What every athlete has lifted, as loads are worked out from it."""
    by_person: dict[str, dict[str, list[LoadMade]]] = {}
    ids: dict[str, set[str]] = {}
    for one in classes:
        for ident, name in one.people.items():
            ids.setdefault(name_key(name), set()).add(ident)
        for lifted in one.lifted:
            lifts = by_person.setdefault(lifted.person_id, {})
            lifts.setdefault(benchmark_key(lifted.lift), []).append(lifted)
    return LiftHistory(
        {
            person: {lift: handled(_record(every, formula)) for lift, every in lifts.items()}
            for person, lifts in by_person.items()
        },
        {name: next(iter(those)) for name, those in ids.items() if len(those) == 1},
    )


def handled(record: LiftRecord) -> Handled:
    """What loads to come are reckoned from."""
    return Handled(record.best.load, record.heaviest.load)


def _record(every: Sequence[LoadMade], formula: Formula) -> LiftRecord:
    heaviest = max(every, key=lambda lifted: lifted.load.kg)
    estimates = [
        (maximum(lifted.load, lifted.reps, formula), lifted.on)
        for lifted in every
        if lifted.reps <= MOST_REPS
    ]
    pool = [one for one in estimates if not one[0].unreliable] or estimates
    # Whoever has made a load for several reps has made it for one.
    pool.append((maximum(heaviest.load, 1), heaviest.on))
    best, on = max(pool, key=lambda one: one[0].load.kg)
    return LiftRecord(heaviest.lift, heaviest, best, on)


def _opened(document: ResultsDocument) -> datetime:
    return datetime.fromisoformat(document.started).astimezone()


def _class_lifts(document: ResultsDocument) -> ClassLifts:
    """Raises ValueError where a load can't be read."""
    on = datetime.fromisoformat(document.started).date()
    people = {one.id: one.name for one in document.people if not one.visitor}
    nameless = {one.id for one in document.people if one.visitor}
    lifted = (made for piece in document.pieces for made in _lifted(piece, on))
    return ClassLifts(people, tuple(one for one in lifted if one.person_id not in nameless))


def _lifted(piece: PieceResults, on: date) -> Iterator[LoadMade]:
    lift = known(piece.lift, None)
    if lift is None or piece.status != "settled":
        return
    for lane in piece.lanes:
        if len(lane.members) == 1 and not lane.modification and lane.load_kg:
            sets = known(piece.sets, ())
            for attempt in standing_attempts(lane):
                if attempt.made and attempt.load is not None:
                    load = parse_load(attempt.load, "kg")
                    # Where nobody said for how many reps, it was made for one at least.
                    reps = reps_of_set(sets, attempt.set) or 1
                    yield LoadMade(lane.members[0], lift, load, reps, on)
