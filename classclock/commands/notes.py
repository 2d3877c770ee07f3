"""`notes`: accidents, holds and notes of a class, for the club's own file."""

import argparse
from pathlib import Path

from msgspec import to_builtins

from classclock.book.files.copies import write_copy
from classclock.club.folder import journals
from classclock.commands.shared.book import faults_in_words, meet_other_rooms, say_if_forgotten
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, FindingsError
from classclock.commands.shared.happenings import told_of
from classclock.commands.shared.options import add_club, add_json
from classclock.commands.shared.printing import print_json
from classclock.machine.standard_streams import say
from classclock.report.happenings_text import happenings_lines


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    parser.add_argument("journal", nargs="?", metavar="JOURNAL", help="the latest unless named")
    parser.add_argument("--html", metavar="FILE", help="write it as a page to print")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    meet_other_rooms(folder)
    path = Path(asked.journal) if asked.journal else _latest(journals(folder))
    told = told_of(path, club)
    if asked.json:
        print_json(to_builtins(told))
    elif not asked.html:
        say(*happenings_lines(told))
    if asked.html:
        from classclock.report.happenings_html import happenings_html  # noqa: PLC0415  jinja2: 40 ms

        with faults_in_words(folder):
            write_copy(folder, Path(asked.html), happenings_html(told))
        say_if_forgotten(folder)
        if not asked.json:
            say(asked.html)
    return OK


def _latest(folder: Path) -> Path:
    """The journal of the latest class, by its name: day and time."""
    found = max(folder.glob("*.jsonl"), default=None)
    if found is None:
        raise FindingsError(f"no journals in {folder} yet: every class keeps one there")
    return found
