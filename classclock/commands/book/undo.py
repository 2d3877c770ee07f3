"""`book undo`: take back a change, the newest unless its number is said."""

import argparse

from classclock.book.changed_people import names_in
from classclock.book.changing import NoSuchChangeError, change_words
from classclock.book.entering import take_back_in
from classclock.book.files.changes import Rename
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_not_yet
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
    with asked_book(folder, whole=True) as book:
        try:
            done = take_back_in(book, local_now(), asked.number)
        except NoSuchChangeError as error:
            raise BadUseError(error) from None
        taken_back = done.change
        with book.reading() as connection:
            names = names_in(connection, [taken_back])
        again = ""
        if isinstance(taken_back, Rename):
            again = f", it is {names.get(taken_back.athlete, taken_back.athlete)} again"
        print_answer(
            {"taken_back": taken_back.n, "change": taken_back.change},
            f"Taken back: {change_words(taken_back, names)}{again}.",
            as_json=asked.json,
        )
        say_if_not_yet(done.why_not_yet)
    return OK
