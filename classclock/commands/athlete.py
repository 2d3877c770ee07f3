"""`athlete`: one athlete's page, in the terminal or as a page for the athlete."""

import argparse
from datetime import date
from pathlib import Path

from classclock.book.files.copies import write_copy
from classclock.book.tables.opening import Book
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_forgotten, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import page_width, print_json
from classclock.machine.standard_streams import say
from classclock.report.athlete_page import AthletePage, athlete_page
from classclock.report.athlete_text import athlete_lines, page_values


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    parser.add_argument("--benchmark", metavar="NAME", help="whose history to show")
    parser.add_argument("--html", metavar="FILE", help="write it as a page, without marks")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    today = local_now().date()
    with asked_book(folder) as book:
        page = _page(book, asked, today)
        if asked.html:
            from classclock.report.athlete_html import athlete_html  # noqa: PLC0415  jinja2: 40 ms

            write_copy(folder, Path(asked.html), athlete_html(page, club.name, today))
            say_if_forgotten(folder)
        if asked.json:
            print_json(page_values(page))
        elif asked.html:
            say(asked.html)
        else:
            say(*athlete_lines(page, page_width()))
    return OK


def _page(book: Book, asked: argparse.Namespace, today: date) -> AthletePage:
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
        try:
            return athlete_page(connection, athlete, today, asked.benchmark)
        except LookupError as error:
            raise BadUseError(f"{athlete.name}: {error.args[0]}") from None
