"""`book import`: take in a club's old spreadsheet."""

import argparse
from pathlib import Path

from classclock.book.changing import write_down
from classclock.book.importing.importing import ReadyImport, benchmark_kinds, ready_import
from classclock.book.importing.spreadsheet import read_spreadsheet
from classclock.book.tables.opening import Book
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer, say_wrong
from classclock.machine.plain_file import read_file
from classclock.plan.findings import Finding
from classclock.units.loads import Unit


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("file", help="CSV: name,benchmark,score,date")
    parser.add_argument("--dry-run", action="store_true", help="only say what would go in")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    with asked_book(folder) as book:
        ready, findings = _read(Path(asked.file), book, club.unit)
        for finding in findings:
            say_wrong(str(finding))
        goes_in = not findings and not asked.dry_run
        if goes_in and ready.change.scores:
            write_down(folder, [ready.change], local_now())
        values = {
            "scores": len(ready.change.scores),
            "new_people": list(ready.new),
            "already": ready.already,
            "findings": len(findings),
            "imported": goes_in,
        }
        lines = _lines(ready, len(findings), dry_run=asked.dry_run)
        print_answer(values, *lines, as_json=asked.json)
    return FINDINGS if findings else OK


def _read(path: Path, book: Book, unit: Unit) -> tuple[ReadyImport, tuple[Finding, ...]]:
    """What the file would bring into the book, and what is wrong with it."""
    try:
        raw = read_file(path)
    except OSError as error:
        raise BadUseError(
            f"{path}: this file can't be read ({error.strerror}). Check its name."
        ) from None
    today = local_now().date()
    with book.reading() as connection:
        kinds = benchmark_kinds(connection)
        rows, findings = read_spreadsheet(raw, str(path), unit=unit, kinds=kinds, today=today)
        ready = ready_import(connection, rows, path.name)
    return ready, (*findings, *ready.findings)


def _lines(ready: ReadyImport, findings: int, *, dry_run: bool) -> list[str]:
    scores = counted(len(ready.change.scores), "score", "scores")
    lines = []
    if findings:
        lines.append(f"Nothing went in: put {counted(findings, 'row', 'rows')} right first.")
    elif dry_run:
        lines.append(f"{scores} would go in. Without --dry-run they do.")
    else:
        lines.append(f"{scores} went in. `classclock book undo` takes them out again.")
    if ready.new:
        lines.append(f"New in the book: {', '.join(ready.new)}.")
    if ready.already:
        lines.append(f"{counted(ready.already, 'row', 'rows')} left out: the book has them.")
    return lines
