"""`book mark`: mark somebody for the coach, or keep them off the wall."""

import argparse

from classclock.book.entering import put_in
from classclock.book.files.changes import MarkSet
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_not_yet, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer
from classclock.tally.lanes import Mark

MARKS: dict[str, Mark] = {
    "under-18": "under 18",
    "newcomer": "newcomer",
    "back-after-weeks": "back after weeks",
    "off-the-wall": "off the wall",
}
"""By what is typed."""


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    parser.add_argument("mark", choices=MARKS)
    parser.add_argument("--off", action="store_true", help="take the mark off")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder, whole=True) as book:
        with book.reading() as connection:
            athlete = the_one(connection, asked.name)
        mark, on = MARKS[asked.mark], not asked.off
        done = put_in(book, [MarkSet(athlete=athlete.id, mark=mark, on=on)], local_now())
        print_answer(
            {"athlete": athlete.id, "mark": mark, "on": on},
            f"{athlete.name} is {'' if on else 'no longer '}marked: {mark}.",
            as_json=asked.json,
        )
        say_if_not_yet(done.why_not_yet)
    return OK
