"""`book undo`: take back a change, the newest unless its number is said."""

import argparse

from classclock.book.changing import NoSuchChangeError, change_words, take_back
from classclock.book.files.changes import Rename
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.keeping import now_ns
from classclock.book.tables.queries import all_athletes, recorded_names
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json, whole_number
from classclock.commands.shared.printing import print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument(
        "number",
        type=whole_number,
        nargs="?",
        help="of the change, as `book changes` lists it; the newest unless said",
    )


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder) as book:
        try:
            taken_back = take_back(folder, local_now(), asked.number)
        except NoSuchChangeError as error:
            raise BadUseError(error) from None
        catch_up(book, now_ns())
        with book.reading() as connection:
            names = {one.id: one.name for one in all_athletes(connection)}
            names = {**recorded_names(connection), **names}
        again = ""
        if isinstance(taken_back, Rename):
            again = f", it is {names.get(taken_back.athlete, taken_back.athlete)} again"
        print_answer(
            {"taken_back": taken_back.n, "change": taken_back.change},
            f"Taken back: {change_words(taken_back, names)}{again}.",
            as_json=asked.json,
        )
    return OK
