"""`book merge`: two entries are one person; without names, which two may be."""

import argparse
from collections.abc import Iterator, Sequence
from pathlib import Path

from classclock.book.entering import put_in
from classclock.book.files.changes import Merge
from classclock.book.tables.queries import Athlete, namesakes, recorded_twice
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_not_yet, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import counted, print_answer


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument(
        "gone", metavar="NAME", nargs="?", help="the entry that goes; without it: which may be one"
    )
    parser.add_argument(
        "kept", metavar="KEPT-NAME", nargs="?", help="the entry that has it all then"
    )


def do(asked: argparse.Namespace) -> int:
    folder, _ = asked_club(asked)
    if asked.gone is None:
        return _propose(folder, as_json=asked.json)
    if asked.kept is None:
        raise BadUseError(f"into whom? classclock book merge {asked.gone} KEPT-NAME")
    with asked_book(folder, whole=True) as book:
        with book.reading() as connection:
            gone, kept = the_one(connection, asked.gone), the_one(connection, asked.kept)
            elsewhere = [one.id for one in namesakes(connection, kept)]
        if gone.id == kept.id:
            also = f"; {kept.name} of another room is {' or '.join(elsewhere)}" if elsewhere else ""
            raise BadUseError(f"both names are one entry already{also}")
        merge = Merge(gone=gone.id, kept=kept.id, name=kept.name)
        done = put_in(book, [merge], local_now())
        print_answer(
            {"gone": gone.id, "kept": kept.id},
            f"All that was {gone.name}'s is {kept.name}'s.",
            as_json=asked.json,
        )
        say_if_not_yet(done.why_not_yet)
    return OK


def _propose(folder: Path, *, as_json: bool) -> int:
    """Name who has one name in several entries: whether they are one person, the coach knows."""
    with asked_book(folder) as book, book.reading() as connection:
        twice = recorded_twice(connection)
    values = [[{"id": one.id, "name": one.name} for one in group] for group in twice]
    lines = [line for group in twice for line in _proposed(group)]
    print_answer(
        {"same_name": values},
        *(lines or ["No two people in the book have one name."]),
        as_json=as_json,
    )
    return OK


def _proposed(group: Sequence[Athlete]) -> Iterator[str]:
    kept, *others = group
    yield f"{kept.name}: {len(group)} entries have this name."
    for one in group:
        last = f", last here {one.last_day}" if one.last_day else ""
        yield f"  {one.id}: {counted(one.classes, 'class', 'classes')}{last}"
    for one in others:
        yield f"  one person? classclock book merge {one.id} {kept.id}"
