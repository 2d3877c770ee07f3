"""`month`: a month on one page, in the terminal or to print."""

import argparse
from pathlib import Path

from classclock.book.files.copies import write_copy
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_forgotten, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club, add_json, add_kept_off
from classclock.commands.shared.printing import print_json, say_left_out
from classclock.machine.standard_streams import say
from classclock.records.month import Month, month_of, read_month
from classclock.report.month.month_text import month_lines, month_values
from classclock.report.month.page import month_page


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument(
        "month", nargs="?", type=_month, metavar="MONTH", help="as 2026-11; this one unless named"
    )
    parser.add_argument("--html", metavar="FILE", help="write it as a page")
    parser.add_argument("--text", action="store_true", help="print it, short enough to send")
    add_kept_off(parser)


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    today = local_now().date()
    with asked_book(folder) as book:
        with book.reading() as connection:
            named = {the_one(connection, name).id for name in asked.named}
            page = month_page(connection, asked.month or month_of(today), today, named)
        if asked.html:
            from classclock.report.month.month_html import month_html  # noqa: PLC0415  jinja2: 40 ms

            write_copy(folder, Path(asked.html), month_html(page, club.name, today))
            say_if_forgotten(folder)
    say_left_out(page.left_out)
    if asked.json:
        print_json(month_values(page))
    elif asked.text or not asked.html:
        say(*month_lines(page))
    else:
        say(asked.html)
    return OK


def _month(written: str) -> Month:
    try:
        return read_month(written)
    except ValueError:
        raise argparse.ArgumentTypeError(
            f'"{written}" is no month: write the year and the month, as in 2026-11'
        ) from None
