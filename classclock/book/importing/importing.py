"""An old spreadsheet's rows, made ready to go in: whose each is, and which are there already."""

import os
from collections.abc import Sequence

from msgspec import Struct
from sqlalchemy import Connection, select

from classclock.book.files.changes import Import, ImportedScore
from classclock.book.importing.spreadsheet import OldRow
from classclock.book.tables.queries import Athlete, all_athletes
from classclock.book.tables.schema import bests, results
from classclock.plan.findings import Finding
from classclock.records.result import Kind


class ReadyImport(Struct, frozen=True):
    """What an import would put in. Nothing goes in while there are findings."""

    change: Import
    new: tuple[str, ...]
    """Names that nobody in the book has yet."""
    already: int
    """Rows left out, since the book has them."""
    findings: tuple[Finding, ...]


def benchmark_kinds(connection: Connection) -> dict[str, Kind]:
    """How each benchmark in the book is scored; the latest best tells."""
    asked = select(bests.c.benchmark, bests.c.kind).order_by(bests.c.last_moment, bests.c.kind)
    return {row.benchmark: row.kind for row in connection.execute(asked)}


def ready_import(connection: Connection, rows: Sequence[OldRow], file: str) -> ReadyImport:
    """Give each row to the athlete of that name; a name nobody has makes a new one."""
    by_name: dict[str, list[Athlete]] = {}
    for athlete in all_athletes(connection):
        by_name.setdefault(athlete.name.casefold(), []).append(athlete)
    there = _recorded(connection, {row.benchmark for row in rows})
    new: dict[str, str] = {}
    names: dict[str, str] = {}
    scores: list[ImportedScore] = []
    findings: list[Finding] = []
    already = 0
    for row in rows:
        folded = row.name.casefold()
        known = by_name.get(folded, [])
        if len(known) > 1:
            what = f"{len(known)} people in the book are called {row.name}"
            findings.append(Finding(file, row.line, None, what, "Rename one of them first"))
            continue
        if known:
            ident = known[0].id
        else:
            ident = new.setdefault(folded, f"imported-{os.urandom(8).hex()}")
            names.setdefault(folded, row.name)
        score = _score(ident, row)
        key = (ident, score.benchmark, score.day, score.score)
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
    return {tuple(row) for row in connection.execute(asked)}


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
