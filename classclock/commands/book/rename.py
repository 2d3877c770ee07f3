"""`book rename`: show somebody under another name."""

import argparse

from classclock.book.entering import put_in
from classclock.book.files.changes import Rename
from classclock.book.tables.queries import own_people
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, asked_name, say_if_not_yet, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer
from classclock.units.names import name_key


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    parser.add_argument("new", metavar="NEW-NAME", help="what to show from now on")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder, whole=True) as book:
        name = asked_name(asked.new)
        with book.reading() as connection:
            athlete = the_one(connection, asked.name)
            own = (one for _, one in own_people(connection) if one.id != athlete.id)
            namesake = any(name_key(one.name) == name_key(name) for one in own)
        if namesake:
            raise BadUseError(
                f"somebody else is called {name}: add an initial, or merge the two if they are one"
            )
        done = put_in(book, [Rename(athlete=athlete.id, name=name)], local_now())
        print_answer(
            {"athlete": athlete.id, "name": name},
            f"{athlete.name} is {name} now.",
            as_json=asked.json,
        )
        say_if_not_yet(done.why_not_yet)
    return OK
