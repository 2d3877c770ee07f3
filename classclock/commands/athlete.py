"""`athlete`: one athlete's page, in the terminal or as a file; or all that is kept of them."""

import argparse
from datetime import date
from pathlib import Path

from classclock.book.files.copies import copies_written, write_copy
from classclock.book.tables.opening import Book
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_forgotten, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import page_width, print_answer, print_json, say_wrong
from classclock.machine.standard_streams import say
from classclock.plan.settings.club import Club
from classclock.report.athlete_page import AthletePage, athlete_page
from classclock.report.athlete_text import athlete_lines, page_values


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    parser.add_argument("--benchmark", metavar="NAME", help="whose history to show")
    files = parser.add_mutually_exclusive_group()
    files.add_argument("--html", metavar="FILE", help="write it as a page, without marks")
    files.add_argument(
        "--folder", metavar="DIR", help="write everything kept about them there, to hand over"
    )


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    today = _today()
    with asked_book(folder) as book:
        page = _page(book, asked, today)
        if asked.folder:
            return _hand_over(book, page, club, asked)
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


def _hand_over(book: Book, page: AthletePage, club: Club, asked: argparse.Namespace) -> int:
    """Write everything about them into a folder of its own."""
    from classclock.book.handing_over.everything import kept_about  # noqa: PLC0415  seldom
    from classclock.report.handed_over import handed_over  # noqa: PLC0415  jinja2: 40 ms

    into = Path(asked.folder)
    _refuse_unless_empty(into)
    kept = kept_about(book, page.athlete)
    files = handed_over(kept, page, club.name, _today())
    with copies_written(book.folder, [into / name for name in files]) as written_to:
        for copy, data in zip(written_to, files.values(), strict=True):
            copy.write(data)
    say_if_forgotten(book.folder)
    for unread in kept.unread:
        say_wrong(f"look yourself, it may tell of {page.athlete.name} and can't be read: {unread}")
    if kept.elsewhere:
        say_wrong("another room keeps journals about them: ask for its folder there")
    written = [str(into / name) for name in files]
    values = {"written": written, "unread": list(kept.unread)}
    print_answer(values, *written, as_json=asked.json)
    return FINDINGS if kept.unread else OK


def _refuse_unless_empty(into: Path) -> None:
    """Raises BadUseError: something is there, that would be mixed up with what is handed over."""
    if into.exists() and not into.is_dir():
        raise BadUseError(f"{into} is a file: name a new folder")
    if into.is_dir() and any(into.iterdir()):
        raise BadUseError(f"{into} isn't empty: name a new folder, so that it holds theirs alone")


def _page(book: Book, asked: argparse.Namespace, today: date) -> AthletePage:
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
        try:
            return athlete_page(connection, athlete, today, asked.benchmark)
        except LookupError as error:
            raise BadUseError(f"{athlete.name}: {error.args[0]}") from None


def _today() -> date:
    return local_now().date()
