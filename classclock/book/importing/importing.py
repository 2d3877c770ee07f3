"""Old scores and another club's tables, made ready to go in: whose each is, what is there."""

from collections.abc import Callable, Collection, Sequence
from typing import TypeVar

from msgspec import UNSET, Struct
from msgspec.structs import replace
from sqlalchemy import Connection, func, select

from classclock.book.files.goal_lines import ImportedGoal
from classclock.book.files.import_lines import (
    Import,
    ImportedLift,
    ImportedMark,
    ImportedRecord,
    ImportedScore,
    ImportedVisit,
    score_moment,
)
from classclock.book.goals.table import goals_of
from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.exported_reading import Exported
from classclock.book.importing.old_row import OldRow
from classclock.book.importing.powers import Usual, amount
from classclock.book.people_ids import drawn_id, new_id, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete, own_people
from classclock.book.tables.schema import bests, lifts, results, seen
from classclock.plan.findings import Finding
from classclock.records.benchmark_headings import heading_of
from classclock.records.class_entries import benchmark_key
from classclock.records.result import A_ROUND, FINISHED, ScoreKind
from classclock.units.names import name_key

Record = TypeVar("Record", bound=ImportedRecord)


class ReadyImport(Struct, frozen=True):
    """What an import would put in. Nothing goes in while there are findings."""

    change: Import
    new: tuple[str, ...]
    """Names that nobody in the book has yet."""
    already: int
    """Rows left out, since the book has them."""
    findings: tuple[Finding, ...]


def book_known(connection: Connection) -> BookKnown:
    """What the book has, to hold a sheet against; a benchmark is scored as in its latest best."""
    names = tuple(athlete.name for _, athlete in own_people(connection))
    asked = select(*(bests.c[name] for name in ("benchmark", "kind", "name", "written")))
    kinds: dict[str, ScoreKind] = {}
    called: dict[str, str] = {}
    for row in connection.execute(asked.order_by(bests.c.last_moment, bests.c.kind)):
        kinds[row.benchmark] = row.kind
        called[row.benchmark] = heading_of(row.benchmark, row.name, row.written)
    return BookKnown(kinds, _usual(connection), names, called)


def _usual(connection: Connection) -> dict[tuple[str, bool], Usual]:
    finished = results.c.worth >= FINISHED
    by = (results.c.benchmark, results.c.kind, finished)
    odd = func.max(results.c.worth % A_ROUND)
    most = select(*by[:2], func.min(results.c.worth), func.max(results.c.worth), odd)
    asked = most.where(results.c.counts).group_by(*by)
    found: dict[tuple[str, bool], Usual] = {}
    for benchmark, kind, least_worth, most_worth, most_odd in connection.execute(asked):
        (one, is_time), (other, _) = (amount(kind, worth) for worth in (least_worth, most_worth))
        found[benchmark, is_time] = Usual(min(one, other), max(one, other), most_odd)
    return found


def ready_import(
    connection: Connection,
    rows: Sequence[OldRow],
    file: str,
    draw: Callable[[], str] = drawn_id,
) -> ReadyImport:
    """Give each row to this room's athlete of that name; a name nobody has makes a new one."""
    people = _People(connection, file, draw)
    there = _scores_there(connection, {row.benchmark for row in rows})
    scores = []
    already = 0
    for row in rows:
        athlete = people.of(row.name, row.line)
        if athlete is None:
            continue
        key = (athlete.entry, row.benchmark, row.day, row.score.score)
        if key in there:
            already += 1
            continue
        there.add(key)
        scores.append(_score(athlete.ident, row))
    change = Import(file=file, scores=tuple(scores))
    return ReadyImport(change, people.new, already, tuple(people.findings))


def ready_exported(
    connection: Connection, exported: Exported, file: str, draw: Callable[[], str] = drawn_id
) -> ReadyImport:
    """The same for the tables of another club's book, or of this one: they say the very moment."""
    people = _People(connection, file, draw)
    room = asking_room(connection)
    taking = _Taking(people)
    asked = select(results.c.athlete, results.c.name, results.c.moment, results.c.score)
    scores = {(said_in(room, row.athlete), *row[1:]) for row in connection.execute(asked)}
    came = select(seen.c.athlete, seen.c.moment).where(seen.c.came)
    visits = {(said_in(room, row.athlete), row.moment) for row in connection.execute(came)}
    tried = select(lifts.c.athlete, lifts.c.lift, lifts.c.moment)
    lifted = {(said_in(room, row.athlete), *row[1:]) for row in connection.execute(tried)}
    marked = {(one.id, mark) for _, one in own_people(connection) for mark in one.marks}
    aimed = {
        (one.athlete, one.benchmark, one.since)
        for theirs in goals_of(connection).values()
        for one in theirs
    }
    kept = (
        taking.those(exported.scores, scores, _as_score, once=True),
        taking.those(exported.visits, visits, _as_visit, once=True),
        taking.those(exported.lifts, lifted, _as_lift, once=False),
        taking.those(exported.marks, marked, _as_mark, once=True),
        taking.those(exported.goals, aimed, _as_goal, once=True),
    )
    change = Import(
        file=file,
        scores=kept[0],
        visits=kept[1] or UNSET,
        lifts=kept[2] or UNSET,
        marks=kept[3] or UNSET,
        goals=kept[4] or UNSET,
    )
    findings = (*exported.findings, *people.findings)
    return ReadyImport(change, people.new, taking.already, findings)


def _as_score(one: ImportedScore) -> tuple[object, ...]:
    piece = one.benchmark if one.piece is UNSET else one.piece
    return (piece, score_moment(one), one.score)


def _as_visit(one: ImportedVisit) -> tuple[object, ...]:
    return (one.moment,)


def _as_lift(one: ImportedLift) -> tuple[object, ...]:
    return (one.lift, one.moment)


def _as_mark(one: ImportedMark) -> tuple[object, ...]:
    return (one.mark,)


def _as_goal(one: ImportedGoal) -> tuple[object, ...]:
    return (benchmark_key(one.benchmark), one.since)


class _Of(Struct, frozen=True):
    """Somebody that a name means: how the room's files call them, and how it asks for them."""

    ident: str
    entry: str


class _People:
    """Whom names mean, in the book or new."""

    def __init__(self, connection: Connection, file: str, draw: Callable[[], str]) -> None:
        own = own_people(connection)
        self._taken = {ident for ident, _ in own}
        self._by_name: dict[str, list[tuple[str, Athlete]]] = {}
        for ident, athlete in own:
            self._by_name.setdefault(name_key(athlete.name), []).append((ident, athlete))
        self._file = file
        self._draw = draw
        self._new: dict[str, tuple[str, str]] = {}
        self.findings: list[Finding] = []

    @property
    def new(self) -> tuple[str, ...]:
        """Names that nobody in the book has yet, as they were first written."""
        return tuple(name for name, _ in self._new.values())

    def of(self, name: str, line: int) -> _Of | None:
        """Whom a name means; None, and a finding, where several have it."""
        folded = name_key(name)
        known = self._by_name.get(folded, [])
        if len(known) > 1:
            what = f"{len(known)} people in the book are called {name}"
            instead = "Rename one of them first, or merge them if they are one"
            finding = Finding(self._file, line, None, what, instead)
            if line or finding not in self.findings:
                self.findings.append(finding)
            return None
        if known:
            return _Of(known[0][0], known[0][1].id)
        if folded not in self._new:
            ident = new_id(self._taken, self._draw)
            self._taken.add(ident)
            self._new[folded] = (name, ident)
        ident = self._new[folded][1]
        return _Of(ident, ident)


class _Taking:
    """Sorts out what the book has already."""

    def __init__(self, people: _People) -> None:
        self._people = people
        self.already = 0

    def those(
        self,
        records: Sequence[Record],
        there: Collection[tuple[object, ...]],
        key: Callable[[Record], tuple[object, ...]],
        *,
        once: bool,
    ) -> tuple[Record, ...]:
        """Those that aren't `there`, each given to whom it names.

        `once`: of several with one key only the first is taken.
        """
        kept = []
        met = set(there)
        for one in records:
            athlete = self._people.of(one.name, 0)
            if athlete is None:
                continue
            full = (athlete.entry, *key(one))
            if full in met:
                self.already += 1
                continue
            if once:
                met.add(full)
            kept.append(replace(one, athlete=athlete.ident))
        return tuple(kept)


def _scores_there(connection: Connection, benchmarks: set[str]) -> set[tuple[str, ...]]:
    columns = (results.c.athlete, results.c.benchmark, results.c.day, results.c.score)
    asked = select(*columns).where(results.c.benchmark.in_(benchmarks))
    room = asking_room(connection)
    return {(said_in(room, athlete), *row) for athlete, *row in connection.execute(asked)}


def _score(ident: str, row: OldRow) -> ImportedScore:
    is_its_name = benchmark_key(row.written) == row.benchmark
    return ImportedScore(
        athlete=ident,
        name=row.name,
        benchmark=row.written if is_its_name else row.benchmark,
        piece=UNSET if is_its_name else row.written,
        score=row.score.score,
        kind=row.score.kind,
        worth=row.score.worth,
        day=row.day,
        modification=row.modification,
        loads=row.loads,
        work=row.work,
    )
