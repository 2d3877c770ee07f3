"""`book erase`: forget somebody who asked for it."""

import argparse
from typing import Any

from classclock.book.erasing.erasing import OUT_OF_REACH, ClassRunningError, Reach, erase, look
from classclock.book.tables.queries import Athlete
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, OK, FindingsError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("name", help="who, by the name in the book")
    parser.add_argument("--yes", action="store_true", help="do it; it can't be taken back")


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    with asked_book(folder) as book:
        with book.reading() as connection:
            athlete = the_one(connection, asked.name)
        try:
            reach = erase(book, athlete, local_now()) if asked.yes else look(book, athlete)
        except ClassRunningError as error:
            raise FindingsError(error) from None
        lines = _lines(athlete, reach, done=asked.yes)
        print_answer(_values(reach, done=asked.yes), *lines, as_json=asked.json)
    return OK if reach.whole else FINDINGS


def _values(reach: Reach, *, done: bool) -> dict[str, Any]:
    return {
        "erased": done,
        "records": [str(path) for path in reach.files],
        "removed": [str(path) for path in reach.removed],
        "changed_since": [str(path) for path in reach.changed],
        "damaged": [str(path) for path in reach.damaged],
        "later": [str(path) for path in reach.later],
        "beside": [str(path) for path in reach.beside],
        "out_of_reach": list(OUT_OF_REACH),
    }


def _lines(athlete: Athlete, reach: Reach, *, done: bool) -> list[str]:
    will = "" if done else "would be "
    number = counted(len(reach.files), "journal or results file", "journals and results files")
    lines = [f"{athlete.name}: {will}taken out of the book and of {number}."]
    lines += [f"  {will}removed: {path}" for path in reach.removed]
    lines += [
        f"  look yourself, it was changed since it was written: {path}" for path in reach.changed
    ]
    lines += [f"  look yourself, it is damaged, and left as it is: {one}" for one in reach.damaged]
    lines += [
        f"  update this classclock and look yourself, it was made by a later one, "
        f"and left as it is: {one}"
        for one in reach.later
    ]
    lines += [f"  look yourself, it belongs to one of these: {one}" for one in reach.beside]
    lines += ["Out of reach:", *(f"  {line}" for line in OUT_OF_REACH)]
    if not done:
        lines.append("Nothing is changed yet. It can't be taken back: add --yes to do it.")
    return lines
