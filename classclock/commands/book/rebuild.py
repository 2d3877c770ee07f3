"""`book rebuild`: make the book anew from the results files."""

import argparse

from classclock.book.tables.keeping import now_ns
from classclock.book.tables.rebuilding import make_anew
from classclock.commands.shared.book import faults_in_words
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer, say_wrong
from classclock.commands.shared.progress import progress_shown


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with progress_shown(), faults_in_words(folder):
        caught = make_anew(folder, now_ns())
        for notice in caught.notices:
            say_wrong(notice)
        print_answer(
            {"classes": caught.classes},
            f"The book is made anew from {counted(caught.classes, 'class', 'classes')}.",
            as_json=asked.json,
        )
    return FINDINGS if caught.notices else OK
