"""`book import`: take in a club's old spreadsheet, and ask about what can't be told."""

import argparse
from datetime import date
from pathlib import Path

from msgspec import Struct
from msgspec.structs import replace

from classclock.book.entering import put_in
from classclock.book.importing.exported_reading import is_exported, read_exported
from classclock.book.importing.headings import FIELDS, NOT_TAKEN
from classclock.book.importing.importing import (
    ReadyImport,
    book_known,
    ready_exported,
    ready_import,
)
from classclock.book.importing.remembered_columns import remember_columns, remembered_columns
from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet
from classclock.book.tables.opening import Book
from classclock.clock.source import local_now
from classclock.commands.shared.answering import answers_typed, look_at_answers
from classclock.commands.shared.asking import can_ask
from classclock.commands.shared.book import asked_book, say_if_not_yet
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.import_words import ALONE, import_lines, import_values
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer, say_wrong
from classclock.machine.plain_file import read_file
from classclock.units.loads import Unit


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument(
        "file",
        help="a spreadsheet: .csv, .xlsx or .ods, one score a row; or the folder of an export",
    )
    parser.add_argument(
        "--dry-run",
        action="store_true",
        help="only say what each column was taken for, and what would go in",
    )
    parser.add_argument(
        "--columns",
        type=_columns,
        default={},
        metavar='"WHO=name, DID=score"',
        help=f"which column is what: {', '.join(FIELDS)}, or {NOT_TAKEN} to leave it out",
    )
    parser.add_argument(
        "--answer",
        type=_answer,
        action="append",
        default=[],
        metavar="QUESTION=CHOICE",
        help="answer a question ahead, as it is listed; once for each",
    )
    parser.add_argument("--encoding", default="", help="what the text was saved in, as in cp1250")


def _columns(written: str) -> dict[str, str]:
    said: dict[str, str] = {}
    for part in filter(str.strip, written.split(",")):
        heading, _, field = (one.strip() for one in part.rpartition("="))
        if not heading or field not in (*FIELDS, NOT_TAKEN):
            raise argparse.ArgumentTypeError(
                f'"{part.strip()}": write HEADING=FIELD, the field one of {", ".join(FIELDS)} '
                f"or {NOT_TAKEN}"
            )
        said[heading] = field
    return said


def _answer(written: str) -> tuple[str, str]:
    question, _, choice = written.rpartition("=")
    if not question:
        raise argparse.ArgumentTypeError(f'"{written}": write QUESTION=CHOICE, as it is listed')
    return question, choice


class _Sheet(Struct, frozen=True):
    """One file to be taken in."""

    path: Path
    raw: bytes
    unit: Unit
    today: date

    def read(self, book: Book, told: Told) -> tuple[SheetReading, ReadyImport]:
        """What the file would bring into the book."""
        with book.reading() as connection:
            in_book = book_known(connection)
            reading = read_spreadsheet(
                self.raw,
                str(self.path),
                unit=self.unit,
                known=in_book,
                today=self.today,
                told=told,
            )
            ready = ready_import(connection, reading.rows, self.path.name)
        return replace(reading, findings=(*reading.findings, *ready.findings)), ready


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    path = Path(asked.file)
    with asked_book(folder, whole=not asked.dry_run) as book:
        raw = b"" if path.is_dir() else _raw(path)
        if path.is_dir() or is_exported(raw):
            return _take_in_exported(book, path, asked)
        sheet = _Sheet(path, raw, club.unit, local_now().date())
        told = Told(dict(asked.answer), asked.columns, remembered_columns(folder), asked.encoding)
        reading, ready = sheet.read(book, told)
        look_at_answers(told.answers, reading)
        ask = can_ask() and not (asked.dry_run or asked.json)
        while ask and reading.questions and not reading.findings:
            answers = {**told.answers, **answers_typed(reading.questions)}
            told = replace(told, answers=answers)
            reading, ready = sheet.read(book, told)
        goes_in = not (reading.findings or reading.questions or asked.dry_run)
        if goes_in:
            remember_columns(folder, reading.to_remember)
        return _put_in(book, reading, ready, asked, goes_in=goes_in)


def _take_in_exported(book: Book, path: Path, asked: argparse.Namespace) -> int:
    """What another club's book gave out says all of itself: there is nothing to ask."""
    if asked.columns or asked.answer or asked.encoding:
        raise BadUseError("what an export wrote needs no --columns, --answer or --encoding")
    try:
        exported = read_exported(path)
    except OSError as error:
        raise BadUseError(
            f"{error.filename}: this table can't be read ({error.strerror}). Name the folder that "
            "book export wrote, or a spreadsheet."
        ) from None
    with book.reading() as connection:
        ready = ready_exported(connection, exported, path.name)
    kind = "what book export wrote" if path.is_dir() else ALONE
    reading = SheetReading(findings=ready.findings, kind=kind)
    goes_in = not (ready.findings or asked.dry_run)
    return _put_in(book, reading, ready, asked, goes_in=goes_in)


def _put_in(
    book: Book,
    reading: SheetReading,
    ready: ReadyImport,
    asked: argparse.Namespace,
    *,
    goes_in: bool,
) -> int:
    number, why_not_yet = 0, ""
    if goes_in and ready.change.records:
        done = put_in(book, [ready.change], local_now())
        number, why_not_yet = done.change.n, done.why_not_yet
    for finding in reading.findings:
        say_wrong(str(finding))
    lines = import_lines(reading, ready, number, dry_run=asked.dry_run)
    print_answer(
        import_values(reading, ready, number, imported=goes_in), *lines, as_json=asked.json
    )
    say_if_not_yet(why_not_yet)
    return FINDINGS if reading.findings or reading.questions else OK


def _raw(path: Path) -> bytes:
    try:
        return read_file(path)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else "nothing can have that name"
        raise BadUseError(f"{path}: this file can't be read ({why}). Check its name.") from None
