"""`book merge`: two entries are one person."""

import argparse

from classclock.book.changing import write_down
from classclock.book.files.changes import Merge
from classclock.book.tables.queries import namesakes
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("gone", metavar="NAME", help="the entry that goes")
    parser.add_argument("kept", metavar="KEPT-NAME", help="the entry that has it all then")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder) as book:
        with book.reading() as connection:
            gone, kept = the_one(connection, asked.gone), the_one(connection, asked.kept)
            elsewhere = [one.id for one in namesakes(connection, kept)]
        if gone.id == kept.id:
            also = f"; {kept.name} of another room is {' or '.join(elsewhere)}" if elsewhere else ""
            raise BadUseError(f"both names are one entry already{also}")
        write_down(folder, [Merge(gone=gone.id, kept=kept.id, name=kept.name)], local_now())
        print_answer(
            {"gone": gone.id, "kept": kept.id},
            f"All that was {gone.name}'s is {kept.name}'s.",
            as_json=asked.json,
        )
    return OK
