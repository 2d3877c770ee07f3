"""A club's old spreadsheet: whose score, on what, how good, when; one score a row."""

from collections.abc import Iterator, Mapping, Sequence
from datetime import date

from msgspec import Struct, field

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.headings import SheetHeadings, read_headings
from classclock.book.importing.old_days import order_in
from classclock.book.importing.old_row import FaultError, OldRow, RowWaitsError
from classclock.book.importing.powers import usual_in_sheet
from classclock.book.importing.questions import Asking, LeftOutError, SheetQuestion, WaitingError
from classclock.book.importing.row_reading import RowReader
from classclock.book.importing.score_asking import far_key
from classclock.book.importing.sheet_table import SheetRow, SheetTable, UnreadableSheetError
from classclock.book.importing.text_reading import read_text_sheet
from classclock.book.importing.workbook_reading import is_workbook, read_workbook
from classclock.book.under_way import steps
from classclock.plan.findings import Finding
from classclock.units.loads import Unit

_MOST_BYTES = 20_000_000
_MOST_FINDINGS = 200


class Told(Struct, frozen=True):
    """What the coach said of a sheet."""

    answers: Mapping[str, str] = field(default_factory=dict)
    """By a question's key."""
    columns: Mapping[str, str] = field(default_factory=dict)
    """By heading, what it is."""
    remembered: Mapping[str, str] = field(default_factory=dict)
    """The same, said of an earlier sheet."""
    encoding: str = ""


class ColumnTaken(Struct, frozen=True):
    """What a column was taken for."""

    heading: str
    taken_for: str
    """One of the names of `headings.FIELDS`; empty where it is left out."""
    example: str
    """The first of its cells that says something, and as what it was read."""


class SheetReading(Struct, frozen=True):
    """What came of reading a sheet."""

    rows: tuple[OldRow, ...] = ()
    findings: tuple[Finding, ...] = ()
    questions: tuple[SheetQuestion, ...] = ()
    """What has to be answered before anything can go in."""
    kind: str = ""
    """What the file was taken for."""
    columns: tuple[ColumnTaken, ...] = ()
    left_out: int = 0
    """Rows that the coach wanted left out."""
    to_remember: Mapping[str, str] = field(default_factory=dict)
    """What the coach said of headings."""
    not_asked: tuple[str, ...] = ()
    """Keys of answers to questions that nobody asks."""


def read_spreadsheet(
    raw: bytes, file: str, *, unit: Unit, known: BookKnown, today: date, told: Told | None = None
) -> SheetReading:
    """The rows that can be read, a finding for each that can't, and what has to be asked.

    `known` is what the book has. Columns of other names are left out. After 200 findings the rest
    of the file is left unread. Never raises.
    """
    told = told or Told()
    asking = Asking(told.answers)
    try:
        table = _table(raw, asking, told.encoding)
        headings = read_headings(table.rows, told.columns, told.remembered, asking)
    except UnreadableSheetError as fault:
        return SheetReading(findings=(Finding(file, 1, None, fault.what, fault.instead),))
    except WaitingError:
        return SheetReading(questions=asking.questions)
    reader = RowReader(headings, known, asking, unit, today)
    body = table.rows[headings.first :]
    date_place = headings.place("date") or 0
    days = (row.cells[date_place] for row in body if date_place < len(row.cells))
    reader.get_ready(body, order_in(days))
    rows, findings, left_out = _rows(reader, body, file, asking)
    if table.broken:
        what = "quotes that don't match"
        findings.append(Finding(file, table.broken, None, what, "Put a quote at both ends"))
    return SheetReading(
        tuple(rows),
        tuple(findings),
        asking.questions,
        table.kind,
        tuple(_taken(headings, body, rows)),
        left_out,
        headings.told,
        asking.not_asked,
    )


def _table(raw: bytes, asking: Asking, encoding: str) -> SheetTable:
    if len(raw) > _MOST_BYTES:
        raise UnreadableSheetError("the file is larger than 20 MB", "Split it")
    if is_workbook(raw):
        table = read_workbook(raw, asking)
    else:
        table = read_text_sheet(raw, asking, encoding)
    if not table.rows:
        raise UnreadableSheetError("nothing is in it", "Write name,benchmark,score,date first")
    return table


class _RowsRead(Struct):
    """The rows of a sheet, sorted by what came of each."""

    rows: list[OldRow] = field(default_factory=list)
    waiting: list[OldRow] = field(default_factory=list)
    """Those of which something else than the score is still asked."""
    untold: set[str] = field(default_factory=set)
    """Benchmarks of which the sheet has scores that wait for an answer."""
    findings: list[Finding] = field(default_factory=list)
    left_out: int = 0


def _rows(
    reader: RowReader, body: Sequence[SheetRow], file: str, asking: Asking
) -> tuple[list[OldRow], list[Finding], int]:
    read = _read(reader, body, file)
    usual = usual_in_sheet([(row.benchmark, row.score) for row in (*read.rows, *read.waiting)])
    for benchmark in read.untold:  # all that lies far from the others is asked about together
        asking.later(far_key(benchmark))
    rows: list[OldRow] = []
    for one in (*read.rows, *read.waiting):
        if one.benchmark not in read.untold:
            try:
                rows.append(reader.check_usual(one, usual))
            except LeftOutError:
                read.left_out += 1
            except WaitingError:
                pass
    waiting = {row.line for row in read.waiting}
    return [row for row in rows if row.line not in waiting], read.findings, read.left_out


def _read(reader: RowReader, body: Sequence[SheetRow], file: str) -> _RowsRead:
    read = _RowsRead()
    for row in steps("Reading rows", body):
        try:
            read.rows.append(reader.read(row))
        except FaultError as fault:
            read.findings.append(Finding(file, row.line, None, fault.what, fault.instead))
            if len(read.findings) == _MOST_FINDINGS:
                break
        except LeftOutError:
            read.left_out += 1
        except RowWaitsError as waits:
            if waits.row is None:
                read.untold.add(waits.benchmark)
            else:
                read.waiting.append(waits.row)
        except WaitingError:
            pass  # what it waits for is among the questions
    return read


def _taken(
    headings: SheetHeadings, body: Sequence[SheetRow], rows: Sequence[OldRow]
) -> Iterator[ColumnTaken]:
    first = rows[0] if rows else None
    for one in headings.every:
        line = next((row for row in body if first is None or row.line == first.line), None)
        cell = line.cells[one.place] if line and one.place < len(line.cells) else ""
        read = _read_as(first, one.field) if first is not None else ""
        example = f"{cell}, read as {read}" if read not in ("", cell) else cell
        yield ColumnTaken(one.written, one.field or "", example)


def _read_as(row: OldRow, taken_for: str | None) -> str:
    match taken_for:
        case "score":
            return row.score.score
        case "date":
            return row.day
        case "load":
            return row.loads
        case "work":
            return row.work
        case _:
            return ""
