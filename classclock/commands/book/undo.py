"""`book undo`: take back the newest change."""

import argparse

from classclock.book.changing import change_words, take_back_newest
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.keeping import now_ns
from classclock.book.tables.queries import all_athletes
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder) as book:
        taken_back = take_back_newest(folder, local_now())
        if taken_back is None:
            raise BadUseError("there is no change to take back; an erasure can't be")
        catch_up(book, now_ns())
        with book.reading() as connection:
            names = {one.id: one.name for one in all_athletes(connection)}
        print_answer(
            {"taken_back": taken_back.n, "change": taken_back.change},
            f"Taken back: {change_words(taken_back, names)}.",
            as_json=asked.json,
        )
    return OK
