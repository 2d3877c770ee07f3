"""`book import`: take in a club's old spreadsheet, and ask about what can't be told."""

import argparse
from collections import Counter
from collections.abc import Iterator, Mapping
from datetime import date
from pathlib import Path
from typing import Any

from msgspec import Struct, to_builtins
from msgspec.structs import replace

from classclock.book.changing import write_down
from classclock.book.files.changes import Import
from classclock.book.importing.exported_reading import is_exported, read_exported
from classclock.book.importing.headings import FIELDS, NOT_TAKEN
from classclock.book.importing.importing import (
    ReadyImport,
    book_known,
    ready_exported,
    ready_import,
)
from classclock.book.importing.questions import SheetQuestion, of_all_such
from classclock.book.importing.remembered_columns import remember_columns, remembered_columns
from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet
from classclock.book.tables.opening import Book
from classclock.clock.source import local_now
from classclock.commands.shared.asking import can_ask, choose
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer, say_wrong
from classclock.machine.plain_file import read_file
from classclock.records.document import known
from classclock.report.cells import pad
from classclock.units.loads import Unit
from classclock.units.printable import printable


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


_ALONE = "the results alone of what book export wrote"
"""What a single table of an export is taken for."""


_MANY = 3
"""With more questions of one kind than this it is said how all are answered at once."""


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
    with asked_book(folder) as book:
        raw = b"" if path.is_dir() else _raw(path)
        if path.is_dir() or is_exported(raw):
            return _take_in_exported(book, path, asked)
        sheet = _Sheet(path, raw, club.unit, local_now().date())
        told = Told(dict(asked.answer), asked.columns, remembered_columns(folder), asked.encoding)
        reading, ready = sheet.read(book, told)
        _look_at_answers(told.answers, reading)
        ask = can_ask() and not (asked.dry_run or asked.json)
        while ask and reading.questions and not reading.findings:
            answers = {**told.answers, **_asked(reading.questions)}
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
    kind = "what book export wrote" if path.is_dir() else _ALONE
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
    number = 0
    if goes_in and ready.change.records:
        number = write_down(book.folder, [ready.change], local_now())
    for finding in reading.findings:
        say_wrong(str(finding))
    lines = _lines(reading, ready, number, dry_run=asked.dry_run)
    print_answer(_values(reading, ready, number, imported=goes_in), *lines, as_json=asked.json)
    return FINDINGS if reading.findings or reading.questions else OK


def _raw(path: Path) -> bytes:
    try:
        return read_file(path)
    except (OSError, ValueError) as error:
        why = error.strerror if isinstance(error, OSError) else "nothing can have that name"
        raise BadUseError(f"{path}: this file can't be read ({why}). Check its name.") from None


def _asked(questions: tuple[SheetQuestion, ...]) -> Mapping[str, str]:
    """What is typed, question by question."""
    answers = {}
    for question in questions:
        about = f" ({printable(question.about, longest=200)})" if question.about else ""
        words = [choice.words for choice in question.choices]
        chosen = choose(f"{printable(question.words, longest=200)}{about}", words)
        answers[question.key] = question.choices[chosen].value
    return answers


def _look_at_answers(answers: Mapping[str, str], reading: SheetReading) -> None:
    """An answer that nobody asked for may be meant for something else.

    Raises:
        BadUseError: there is no such question, or no such choice.
    """
    if reading.findings:
        return
    for question in reading.questions:
        for key in (question.key, of_all_such(question.key)):
            if key in answers:
                choices = ", ".join(choice.value for choice in question.choices)
                raise BadUseError(f'"{answers[key]}" is no answer to {key}: write {choices}')
    if reading.not_asked:
        raise BadUseError(
            f"nothing is asked about {' or '.join(reading.not_asked)}: take that --answer out"
        )


def _values(
    reading: SheetReading, ready: ReadyImport, number: int, *, imported: bool
) -> dict[str, Any]:
    return {
        "scores": len(ready.change.scores),
        "new_people": list(ready.new),
        "already": ready.already,
        "visits": len(known(ready.change.visits, ())),
        "lifts": len(known(ready.change.lifts, ())),
        "marks": len(known(ready.change.marks, ())),
        "left_out": reading.left_out,
        "findings": len(reading.findings),
        "columns": to_builtins(reading.columns),
        "questions": to_builtins(reading.questions),
        "imported": imported,
        "change": number or None,
    }


def _lines(
    reading: SheetReading, ready: ReadyImport, number: int, *, dry_run: bool
) -> Iterator[str]:
    scores = _what(ready.change)
    if dry_run and reading.kind and not reading.findings:
        yield from _taken(reading)
    if reading.questions:
        yield from _listed(reading.questions)
    if reading.findings:
        rows = counted(len(reading.findings), "row", "rows")
        yield f"Nothing went in: put {rows} right first."
    elif reading.questions:
        without = " without --dry-run" if dry_run else ""
        yield (
            f"Nothing went in yet. Start it in a terminal{without}, and each is asked; or say it "
            "ahead by --answer."
        )
    elif dry_run:
        yield f"{scores} would go in. Without --dry-run they do."
    elif number:
        yield f"{scores} went in. `classclock book undo {number}` takes them out again."
    else:
        yield "Nothing went in: there is nothing new in it."
    yield from _besides(reading, ready)


def _besides(reading: SheetReading, ready: ReadyImport) -> Iterator[str]:
    if reading.kind == _ALONE:
        yield (
            "Visits, lifts and marks, so also who is off the wall, stand in the tables beside it: "
            "name the folder to have them too."
        )
    if ready.new:
        yield f"New in the book: {', '.join(ready.new)}."
    if ready.already:
        yield f"{counted(ready.already, 'row', 'rows')} left out: the book has them."
    if reading.left_out:
        yield f"{counted(reading.left_out, 'row', 'rows')} left out, as you said."


def _what(change: Import) -> str:
    """`48 scores, 31 visits, 12 lifts and 2 marks`: an old sheet has scores alone."""
    scores = counted(len(change.scores), "score", "scores")
    more = (
        (known(change.visits, ()), "visit", "visits"),
        (known(change.lifts, ()), "lift", "lifts"),
        (known(change.marks, ()), "mark", "marks"),
    )
    others = [counted(len(each), one, many) for each, one, many in more if each]
    return " and ".join(filter(None, (", ".join((scores, *others[:-1])), *others[-1:])))


def _taken(reading: SheetReading) -> Iterator[str]:
    """What the file and each of its columns was taken for."""
    yield f"Read as {printable(reading.kind, longest=200)}."
    headings = pad([f'"{printable(one.heading)}"' for one in reading.columns])
    taken = pad([one.taken_for or "(left out)" for one in reading.columns])
    for heading, taken_for, one in zip(headings, taken, reading.columns, strict=True):
        example = printable(one.example, longest=100) if one.taken_for else ""
        yield f"  {heading}  {taken_for}  {example}".rstrip()


def _listed(questions: tuple[SheetQuestion, ...]) -> Iterator[str]:
    yield f"{counted(len(questions), 'question', 'questions')} first:"
    for question in questions:
        about = f" ({printable(question.about, longest=200)})" if question.about else ""
        yield f"  {printable(question.words, longest=200)}{about}"
        for choice in question.choices:
            said = printable(f'--answer "{question.key}={choice.value}"', longest=200)
            yield f"    {said}  {printable(choice.words, longest=200)}"
    kinds = Counter(of_all_such(question.key) for question in questions)
    for kind, times in kinds.items():
        if times > _MANY:
            yield f'  --answer "{kind}=CHOICE" answers all {times} of that kind.'
