"""A benchmark or lift that somebody names, as the club knows it: its scores, its options."""

from collections.abc import Iterator, Sequence
from pathlib import Path
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection, Row, select

from classclock.book.tables.schema import bests
from classclock.club.movements import club_library
from classclock.club.plan_files import plan_paths, read_plan
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Segment, is_piece
from classclock.plan.movements.completing import complete
from classclock.records.class_entries import benchmark_key, length_words
from classclock.records.result import ScoreKind
from classclock.records.written_terms import NOT_SAID
from classclock.units.alike import NearNames
from classclock.units.loads import Unit
from classclock.units.names import name_key, tidy_name
from classclock.units.printable import printable
from classclock.units.spelling import plain_words


class NotKnownError(Exception):
    """The club knows no such thing; `str` is one sentence that says what to write."""


class BenchmarkKnown(Struct, frozen=True):
    """What the club knows of a benchmark."""

    written: str
    kind: ScoreKind
    rows: Sequence[Row[Any]]
    """Bests on it, of everybody, the terms used last first."""
    segments: tuple[Segment, ...]
    """Those of the club's plans that have it; looked up only where the book doesn't tell."""


def benchmark_known(connection: Connection, folder: Path, named: str, unit: Unit) -> BenchmarkKnown:
    """The benchmark or lift of that name, however it is spelled.

    Raises:
        NotKnownError: nobody did it, and no plan has it.
    """
    asked = select(bests).order_by(bests.c.last_moment.desc(), bests.c.terms, bests.c.athlete)
    key = benchmark_key(named)
    rows = connection.execute(asked.where(bests.c.benchmark == key)).all()
    every = select(bests.c.benchmark, bests.c.written).distinct()
    names = {row.benchmark: row.written or row.benchmark for row in connection.execute(every)}
    if not rows and (plain := plain_words(named)):
        meant = next((key for key in sorted(names) if plain_words(key) == plain), None)
        rows = connection.execute(asked.where(bests.c.benchmark == meant)).all() if meant else []
    if rows:
        return BenchmarkKnown(rows[0].written or rows[0].benchmark, rows[0].kind, rows, ())
    segments = [one for one in _segments(folder, unit) if _called(one)]
    mine = tuple(one for one in segments if benchmark_key(_called(one)) == key)
    if mine:
        return BenchmarkKnown(tidy_name(_called(mine[0])), _kind(mine[0]), (), mine)
    names |= {benchmark_key(_called(one)): _called(one) for one in segments}
    raise NotKnownError(_no_benchmark(named, sorted(names.values())))


def _no_benchmark(named: str, known: Sequence[str]) -> str:
    what = f'no benchmark or lift is called "{printable(named)}"'
    if near := NearNames(known).of(named):
        return f"{what}: did you mean {printable(' or '.join(near), 200)}?"
    if not known:
        return f"{what}: give a piece of a plan its benchmark, or a lift, first"
    return f"{what}: there is {printable(', '.join(known), 400)}"


def _segments(folder: Path, unit: Unit) -> Iterator[Segment]:
    """The pieces of all plans on offer, with the options that the club knows of."""
    library, _ = club_library(folder)
    for path in plan_paths(folder):
        plan, _ = read_plan(path, unit, library)
        if plan is not None:
            yield from (one for one in complete(plan, library).segment if is_piece(one))


def _called(segment: Segment) -> str:
    return segment.benchmark or segment.lift or ""


def _kind(segment: Segment) -> ScoreKind:
    """How its scores are compared, as `class_entries.py` has it of results."""
    if segment.about.has_rounds:
        return "time" if segment.about.rounds == "set" else "rounds"
    return "load" if segment.counting.counts_by == "load" else "reps"


def options_named(written: str | None, known: BenchmarkKnown, folder: Path, unit: Unit) -> str:
    """The options as results say them, in the order of the stations; `written` has commas between.

    Raises:
        NotKnownError: the benchmark has no such option.
    """
    parts = [tidy_name(one) for one in (written or "").split(",") if one.strip()]
    if not parts:
        return ""
    used = {name_key(row.modification): str(row.modification) for row in known.rows}
    if said := used.get(name_key(", ".join(parts))):
        return said
    key = benchmark_key(known.written)
    segments = known.segments or tuple(
        one for one in _segments(folder, unit) if benchmark_key(_called(one)) == key
    )
    offered = [
        option.name for one in segments for station in one.station for option in station.options
    ]
    every = [*offered, *(name for one in used.values() for name in one.split(", ") if name)]
    by_key = {name_key(name): name for name in reversed(every)}
    for part in parts:
        if name_key(part) not in by_key:
            raise NotKnownError(_no_option(part, known, tuple(dict.fromkeys(every))))
    places = {name_key(name): at for at, name in reversed(list(enumerate(every)))}
    return ", ".join(
        by_key[name_key(part)] for part in sorted(parts, key=lambda one: places[name_key(one)])
    )


def _no_option(part: str, known: BenchmarkKnown, every: Sequence[str]) -> str:
    what = f'"{printable(part)}" is no option of {printable(known.written)}'
    if not every:
        return f"{what}: it has none, leave --option out"
    near = NearNames(every).of(part) or every
    return f"{what}: write {printable(' or '.join(near), 400)}"


def length_of(known: BenchmarkKnown) -> str:
    """How long the first plan says that it is."""
    if not known.segments:
        return NOT_SAID
    return length_words(timeline(known.segments[0]).total // 1000)
