"""A club's old spreadsheet, saved as CSV: name, benchmark, score, date, one score a row."""

import csv
import io
from collections.abc import Mapping
from datetime import date

from msgspec import Struct

from classclock.book.importing.old_days import DayOrder, NoDayError, order_in, read_day
from classclock.book.importing.old_scores import OldScore, read_old_score
from classclock.plan.findings import Finding
from classclock.records.class_entries import benchmark_key
from classclock.records.result import NOT_SAID, ScoreKind
from classclock.units.csv_cells import unguarded
from classclock.units.loads import Unit
from classclock.units.names import tidy_name
from classclock.units.printable import can_be_shown, printable

NEEDED = ("name", "benchmark", "score", "date")
OPTIONAL = ("modification", "load", "work")
_MOST_BYTES = 20_000_000
_MOST_FINDINGS = 200


class OldRow(Struct, frozen=True):
    """One score from the file. `line` is the row's last line in it."""

    line: int
    name: str
    benchmark: str
    score: OldScore
    day: str
    modification: str
    loads: str
    work: str


class _FaultError(Exception):
    """What is wrong with a row, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


def read_spreadsheet(
    raw: bytes, file: str, *, unit: Unit, kinds: Mapping[str, ScoreKind], today: date
) -> tuple[tuple[OldRow, ...], tuple[Finding, ...]]:
    """The rows that can be read, and a finding for each that can't. Never raises.

    `kinds` says how the benchmarks that the book knows are scored. Commas, semicolons or tabs
    stand between the columns; columns of other names are left out. After 200 findings the rest of
    the file is left unread.
    """
    try:
        text = _decoded(raw)
        delimiter = _delimiter(text)
        table = csv.reader(io.StringIO(text, newline=""), delimiter=delimiter, strict=True)
        columns = _columns(next(table, []))
    except _FaultError as fault:
        return (), (Finding(file, 1, None, fault.what, fault.instead),)
    except csv.Error:
        return (), (Finding(file, 1, None, "quotes that don't match", _SAVE),)
    rows: list[OldRow] = []
    findings: list[Finding] = []
    found_kinds = dict(kinds)
    order = order_in(text)
    while len(findings) < _MOST_FINDINGS:
        try:
            cells = next(table)
            if any(cell.strip() for cell in cells):
                row = _row(
                    cells,
                    columns,
                    table.line_num,
                    unit=unit,
                    kinds=found_kinds,
                    today=today,
                    order=order,
                )
                found_kinds.setdefault(row.benchmark, row.score.kind)
                rows.append(row)
        except StopIteration:
            break
        except _FaultError as fault:
            findings.append(Finding(file, table.line_num, None, fault.what, fault.instead))
        except csv.Error:
            findings.append(Finding(file, table.line_num, None, "quotes that don't match", _SAVE))
            break
    return tuple(rows), tuple(findings)


_SAVE = "Save the spreadsheet as CSV in UTF-8"


def _decoded(raw: bytes) -> str:
    if len(raw) > _MOST_BYTES:
        raise _FaultError("the file is larger than 20 MB", "Split it")
    try:
        text = raw.decode("utf-8-sig")
    except UnicodeDecodeError:
        raise _FaultError("not UTF-8 text", _SAVE) from None
    if "\0" in text:
        raise _FaultError("no text at all", _SAVE)
    return text


def _delimiter(text: str) -> str:
    first = text.partition("\n")[0]
    return max(",;\t", key=first.count)


def _columns(header: list[str]) -> dict[str, int]:
    places = {cell.strip().casefold(): place for place, cell in enumerate(header)}
    missing = [name for name in NEEDED if name not in places]
    if missing:
        raise _FaultError(
            f"no column is called {' or '.join(missing)}",
            f"Write {','.join(NEEDED)} as the first line; {', '.join(OPTIONAL)} may follow",
        )
    return {name: place for name, place in places.items() if name in NEEDED + OPTIONAL}


def _row(
    cells: list[str],
    columns: Mapping[str, int],
    line: int,
    *,
    unit: Unit,
    kinds: Mapping[str, ScoreKind],
    today: date,
    order: DayOrder,
) -> OldRow:
    said = {
        name: unguarded(cells[place].strip()) if place < len(cells) else ""
        for name, place in columns.items()
    }
    for name in NEEDED:
        if not said[name]:
            raise _FaultError(f"no {name}", f"Write a {name}, or take the row out")
    for name, value in said.items():
        if len(value) > 60 or not can_be_shown(value):
            raise _FaultError(
                f'"{printable(value)}" can\'t be shown', f"Write a {name} of 60 letters at most"
            )
    benchmark = benchmark_key(said["benchmark"])
    try:
        score = read_old_score(said["score"], unit, kinds.get(benchmark))
    except ValueError as error:
        raise _FaultError(f'"{printable(said["score"])}" is no score', str(error)) from None
    try:
        day = read_day(said["date"], today, order)
    except NoDayError as error:
        raise _FaultError(error.what, error.instead) from None
    return OldRow(
        line=line,
        name=tidy_name(said["name"]),
        benchmark=benchmark,
        score=score,
        day=day,
        modification=said.get("modification", ""),
        loads=_loads(said, score.kind),
        work=said.get("work") or NOT_SAID,
    )


def _loads(said: Mapping[str, str], kind: ScoreKind) -> str:
    """The load beside a score: an empty cell says there was none, no such column says nothing."""
    return said.get("load", "" if kind == "load" else NOT_SAID)
