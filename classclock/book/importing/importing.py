"""An old spreadsheet's rows, made ready to go in: whose each is, and which are there already."""

from collections.abc import Callable, Sequence

from msgspec import Struct
from sqlalchemy import Connection, func, select

from classclock.book.files.changes import Import, ImportedScore
from classclock.book.importing.powers import Usual, amount
from classclock.book.importing.row_reading import BookKnown, OldRow
from classclock.book.people_ids import drawn_id, new_id, said_in
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete, own_people
from classclock.book.tables.schema import bests, results
from classclock.plan.findings import Finding
from classclock.records.result import FINISHED, ScoreKind
from classclock.units.names import name_key


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
    asked = select(bests.c.benchmark, bests.c.kind).order_by(bests.c.last_moment, bests.c.kind)
    kinds: dict[str, ScoreKind] = {
        row.benchmark: row.kind for row in connection.execute(asked) if row.benchmark
    }
    return BookKnown(kinds, _usual(connection), names)


def _usual(connection: Connection) -> dict[tuple[str, bool], Usual]:
    finished = results.c.worth >= FINISHED
    by = (results.c.benchmark, results.c.kind, finished)
    most = select(*by[:2], func.min(results.c.worth), func.max(results.c.worth))
    asked = most.where(results.c.counts).group_by(*by)
    found: dict[tuple[str, bool], Usual] = {}
    for benchmark, kind, *worths in connection.execute(asked):
        (one, is_time), (other, _) = (amount(kind, worth) for worth in worths)
        found[benchmark, is_time] = Usual(min(one, other), max(one, other))
    return found


def ready_import(
    connection: Connection,
    rows: Sequence[OldRow],
    file: str,
    draw: Callable[[], str] = drawn_id,
) -> ReadyImport:
    """Give each row to this room's athlete of that name; a name nobody has makes a new one."""
    own = own_people(connection)
    taken = {ident for ident, _ in own}
    by_name: dict[str, list[tuple[str, Athlete]]] = {}
    for ident, athlete in own:
        by_name.setdefault(name_key(athlete.name), []).append((ident, athlete))
    there = _recorded(connection, {row.benchmark for row in rows})
    new: dict[str, str] = {}
    names: dict[str, str] = {}
    scores: list[ImportedScore] = []
    findings: list[Finding] = []
    already = 0
    for row in rows:
        folded = name_key(row.name)
        known = by_name.get(folded, [])
        if len(known) > 1:
            what = f"{len(known)} people in the book are called {row.name}"
            findings.append(
                Finding(
                    file,
                    row.line,
                    None,
                    what,
                    "Rename one of them first, or merge them if they are one",
                )
            )
            continue
        if not known and folded not in new:
            new[folded] = new_id({*taken, *new.values()}, draw)
            names[folded] = row.name
        ident, athlete_id = (known[0][0], known[0][1].id) if known else (new[folded],) * 2
        score = _score(ident, row)
        key = (athlete_id, score.benchmark, score.day, score.score)
        if key in there:
            already += 1
            continue
        there.add(key)
        scores.append(score)
    change = Import(file=file, scores=tuple(scores))
    return ReadyImport(change, tuple(names.values()), already, tuple(findings))


def _recorded(connection: Connection, benchmarks: set[str]) -> set[tuple[str, ...]]:
    columns = (results.c.athlete, results.c.benchmark, results.c.day, results.c.score)
    asked = select(*columns).where(results.c.benchmark.in_(benchmarks))
    room = asking_room(connection)
    return {(said_in(room, athlete), *row) for athlete, *row in connection.execute(asked)}


def _score(ident: str, row: OldRow) -> ImportedScore:
    return ImportedScore(
        athlete=ident,
        name=row.name,
        benchmark=row.benchmark,
        score=row.score.score,
        kind=row.score.kind,
        worth=row.score.worth,
        day=row.day,
        modification=row.modification,
        loads=row.loads,
        work=row.work,
    )
