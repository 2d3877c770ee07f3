"""`book export`: give everything out as CSV and JSON."""

import argparse
from pathlib import Path

from classclock.book.exporting import export_book
from classclock.commands.shared.book import asked_book, say_if_forgotten
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("into", metavar="DIR", help="the folder to write to")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder, whole=True) as book:
        written = [str(path) for path in export_book(book, Path(asked.into))]
        say_if_forgotten(folder)
        print_answer({"written": written}, *written, as_json=asked.json)
    return OK
