"""Tables that `book export` wrote, read back: scores, visits, lifts, marks and goals."""

import csv
import io
from collections.abc import Callable, Iterator, Mapping
from datetime import date
from decimal import Decimal
from pathlib import Path
from typing import Any, TypeVar, get_args

from msgspec import UNSET, Struct

from classclock.book.files.goal_lines import ImportedGoal
from classclock.book.files.import_lines import (
    ImportedLift,
    ImportedMark,
    ImportedRecord,
    ImportedScore,
    ImportedVisit,
)
from classclock.machine.plain_file import read_file
from classclock.plan.findings import Finding
from classclock.records.class_entries import benchmark_key
from classclock.records.result import ScoreKind, finish_worth, load_worth, rounds_worth
from classclock.tally.effort.effort_scale import HARDEST
from classclock.tally.lanes import Mark
from classclock.units.csv_cells import unguarded
from classclock.units.digits import is_whole
from classclock.units.loads import parse_load
from classclock.units.moments import read_moment
from classclock.units.names import is_unnamed, tidy_name
from classclock.units.times import parse_time

RESULTS = "results.csv"
_TELLS_IT = {"kind", "why_not", "at"}
"""Columns by which a table of results is told from an old sheet."""
_KINDS: tuple[ScoreKind, ...] = get_args(ScoreKind)
_MARKS: tuple[Mark, ...] = get_args(Mark)
_LARGEST = 2**31 - 1
Said = Mapping[str, str]
Record = TypeVar("Record", bound=ImportedRecord)


class Exported(Struct, frozen=True):
    """What the tables hold; nobody has an id yet."""

    scores: tuple[ImportedScore, ...] = ()
    visits: tuple[ImportedVisit, ...] = ()
    lifts: tuple[ImportedLift, ...] = ()
    marks: tuple[ImportedMark, ...] = ()
    goals: tuple[ImportedGoal, ...] = ()
    findings: tuple[Finding, ...] = ()


def is_exported(raw: bytes) -> bool:
    """Whether it is a table of results that an export wrote."""
    try:
        first = raw.partition(b"\n")[0].decode("utf-8-sig")
    except UnicodeDecodeError:
        return False
    return set(first.strip().split(",")) >= _TELLS_IT


def read_exported(path: Path) -> Exported:
    """Read a folder that an export wrote, or its results alone.

    Raises:
        OSError: there is no such table, or one can't be read.
    """
    if not path.is_dir():
        return _exported(path, {})
    others = {
        name: read_file(path / f"{name}.csv")
        for name in ("attendance", "lifts", "athletes", "goals")
        if (path / f"{name}.csv").exists()
    }
    return _exported(path / RESULTS, others)


def _exported(path: Path, others: Mapping[str, bytes]) -> Exported:
    findings: list[Finding] = []

    def read(name: str, raw: bytes, one: Callable[[Said], Record | None]) -> tuple[Record, ...]:
        return tuple(_records(str(path.with_name(f"{name}.csv")), raw, one, findings))

    scores = read(path.stem, read_file(path), _score)
    visits = read("attendance", others.get("attendance", b""), _visit)
    lifts = read("lifts", others.get("lifts", b""), _lift)
    marks: list[ImportedMark] = []
    for each in _rows(others.get("athletes", b"")):
        marks += _marks(each[1])
    goals = read("goals", others.get("goals", b""), _goal)
    return Exported(scores, visits, lifts, tuple(marks), goals, tuple(findings))


def _records(
    file: str, raw: bytes, one: Callable[[Said], Record | None], findings: list[Finding]
) -> Iterator[Record]:
    try:
        for line, said in _rows(raw):
            try:
                record = one(said)
            except (KeyError, ValueError, ArithmeticError) as error:
                why = f"{error.args[0]} is missing" if isinstance(error, KeyError) else str(error)
                what = f"this row can't be read ({why})"
                findings.append(Finding(file, line, None, what, "Export the book anew"))
            else:
                if record is not None:
                    yield record
    except (csv.Error, UnicodeDecodeError):
        what = "this is no table of an export"
        findings.append(Finding(file, 0, None, what, "Export the book anew"))


def _rows(raw: bytes) -> Iterator[tuple[int, Said]]:
    text = io.StringIO(raw.decode("utf-8-sig"), newline="")
    table = csv.DictReader(text, strict=True, restval="")
    for row in table:
        yield table.line_num, {key: unguarded(cell) for key, cell in row.items() if key}


def _kind(said: Said) -> ScoreKind:
    kind = next((one for one in _KINDS if one == said["kind"]), None)
    if kind is None:
        raise ValueError(f'"{said["kind"]}" is no kind of score')
    return kind


def _score(said: Said) -> ImportedScore:
    kind = _kind(said)
    total_reps = _number(said["total_reps"])
    moment = read_moment(said["at"])
    return ImportedScore(
        athlete="",
        name=_name(said["name"]),
        benchmark=_written(said),
        score=said["score"],
        kind=kind,
        worth=_worth(kind, said["score"], total_reps),
        day=_day(said["date"]),
        modification=said["modification"],
        loads=said["load"],
        work=said["work"],
        moment=moment,
        piece=said["piece"],
        why_not=said["why_not"] or UNSET,
        team=UNSET if said["team"] == "1" else _number(said["team"]) or UNSET,
        total_reps=UNSET if total_reps is None else total_reps,
        rank=_unsaid(_number(said["rank"])),
        status=said["status"] or UNSET,
        note=said["note"] or UNSET,
    )


def _written(said: Said) -> str:
    """The benchmark with its capitals; an export of before says it without."""
    written = tidy_name(said.get("written", ""))
    key = benchmark_key(said["benchmark"])
    return written if benchmark_key(written) == key else key


def _worth(kind: ScoreKind, score: str, total_reps: int | None) -> int | None:
    """As `class_entries.py` reckons it; None where the score doesn't tell."""
    first = score.partition(" ")[0]
    match kind:
        case "rounds":
            rounds, _, odd = score.partition("+")
            told = is_whole(rounds) and is_whole(odd)
            return rounds_worth(int(rounds), int(odd)) if told else None
        case "time" if ":" in score:
            return finish_worth(parse_time(score) // 1000)
        case "time" if total_reps is not None:
            return total_reps
        case "load":
            try:
                return load_worth(parse_load(score, "kg").kg)
            except ValueError:
                return None
        case _:
            return _number(first) if is_whole(first) else None


def _visit(said: Said) -> ImportedVisit | None:
    if said["came"] != "1":
        return None
    name, key = _name(said["name"]), said["key"][:1]
    day, moment = _day(said["date"]), read_moment(said["at"])
    return ImportedVisit(
        athlete="",
        name=name,
        key=key,
        day=day,
        moment=moment,
        effort=_effort(said.get("effort", "")),
        here_s=_unsaid(_number(said.get("here_s", ""))),
    )


def _effort(written: str) -> Any:
    number = _number(written)
    if number is not None and number > HARDEST:
        raise ValueError(f"an effort is 0 to {HARDEST}, not {number}")
    return _unsaid(number)


def _lift(said: Said) -> ImportedLift:
    return ImportedLift(
        athlete="",
        name=_name(said["name"]),
        lift=benchmark_key(said["lift"]),
        reps=_number(said["reps"]),
        load=said["load"],
        worth=load_worth(Decimal(said["load_kg"])),
        made=said["made"] == "1",
        settled=said["status"] == "settled",
        day=_day(said["date"]),
        moment=read_moment(said["at"]),
    )


def _marks(said: Said) -> Iterator[ImportedMark]:
    written = said.get("marks", "").split(", ")
    for mark in _MARKS:
        if mark in written:
            yield ImportedMark(athlete="", name=_name(said["name"]), mark=mark)


def _goal(said: Said) -> ImportedGoal:
    kind, score = _kind(said), said["goal"]
    reps = score.partition(" ")[0]
    worth = _worth(kind, score, int(reps) if is_whole(reps) else None)
    if worth is None:
        raise ValueError(f'"{score}" is no score')
    return ImportedGoal(
        athlete="",
        name=_name(said["name"]),
        benchmark=tidy_name(said["benchmark"]),
        score=score,
        kind=kind,
        worth=worth,
        since=_day(said["set"]),
        by=_day(said["by"]) if said["by"] else UNSET,
        until=_day(said["ended"]) if said["ended"] else UNSET,
        modification=said["modification"],
        loads=said["load"],
        work=said["work"],
    )


def _name(written: str) -> str:
    name = tidy_name(written)
    if not name or is_unnamed(name):
        raise ValueError("nobody is named")
    return name


def _day(written: str) -> str:
    return date.fromisoformat(written).isoformat()


def _number(written: str) -> int | None:
    if not written:
        return None
    if not is_whole(written) or len(written) > 10:
        raise ValueError(f'"{written}" is no number')
    number = int(written)
    if number > _LARGEST:
        raise ValueError(f"{written} is far too large")
    return number


def _unsaid(number: int | None) -> Any:
    return UNSET if number is None else number
