"""`away`: who hasn't come for weeks, for the coach."""

import argparse

from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer
from classclock.report.away.away_text import away_lines, away_values
from classclock.report.away.page import WEEKS, away_page

_MOST = 520
"""Ten years of weeks."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument(
        "--weeks",
        type=_weeks,
        default=WEEKS,
        metavar="N",
        help=f"for so many weeks or more; {WEEKS} unless said",
    )
    parser.add_argument(
        "--all", action="store_true", help="those too who last came a year ago or longer"
    )


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    today = local_now().date()
    with asked_book(folder) as book, book.reading() as connection:
        page = away_page(connection, today, asked.weeks, everybody=asked.all)
    print_answer(away_values(page), *away_lines(page), as_json=asked.json)
    return OK


def _weeks(written: str) -> int:
    weeks = int(written) if written.isascii() and written.isdecimal() and len(written) < 4 else 0
    if not 1 <= weeks <= _MOST:
        raise argparse.ArgumentTypeError(
            f'"{written}" is no number of weeks: write a whole one, 1 to {_MOST}'
        )
    return weeks
