"""What a command line may say of what was done: `chart`, `athlete`, `report`, `weeks`, `book`."""

import argparse
from collections.abc import Sequence
from typing import Any

from classclock.commands.arguments_asked import OnlyAsked


def add_book(commands: Any, parents: Sequence[argparse.ArgumentParser]) -> None:
    """The commands that ask or change the book; `commands` is what adds a command."""
    chart = commands.add_parser(
        "chart", help="everybody's bests on the benchmarks", parents=parents
    )
    chart.add_argument("--html", metavar="FILE", help="write it as a page")
    chart.add_argument("--csv", metavar="FILE", help="write it as a table")
    chart.add_argument(
        "--here", type=_names, metavar='"ILSE, BRAM"', help="only who is here, with commas between"
    )
    chart.add_argument("--sort", default="name", metavar="BENCHMARK", help="its best first")
    chart.set_defaults(command="chart")

    athlete = commands.add_parser("athlete", help="one athlete's page", parents=parents)
    athlete.add_argument("name", help="who, by the name in the book")
    athlete.add_argument("--benchmark", metavar="NAME", help="whose history to show")
    athlete.add_argument("--html", metavar="FILE", help="write it as a page, without marks")
    athlete.set_defaults(command="athlete")

    report = commands.add_parser("report", help="one class to print or to send", parents=parents)
    report.add_argument("results", nargs="?", metavar="RESULTS", help="the latest unless named")
    report.add_argument("--html", metavar="FILE", help="write it as a page")
    report.add_argument("--text", action="store_true", help="print it, short enough to send")
    report.set_defaults(command="report")

    weeks = commands.add_parser(
        "weeks", help="movement patterns of the last weeks, and what is planned", parents=parents
    )
    weeks.set_defaults(command="weeks")

    book = commands.add_parser("book", help="what is remembered: put right, taken in, given out")
    actions = OnlyAsked(
        book.add_subparsers(title="actions", metavar="ACTION", required=True), asked=None
    )
    book.set_defaults(command="book")
    for name, help_, add in _ACTIONS:
        action = actions.add_parser(name, help=help_, parents=parents)
        action.set_defaults(command="book", action=name)
        add(action)


def _names(written: str) -> tuple[str, ...]:
    return tuple(name.strip() for name in written.split(",") if name.strip())


def _rename(action: argparse.ArgumentParser) -> None:
    action.add_argument("name", help="who, by the name in the book")
    action.add_argument("new", metavar="NEW-NAME", help="what to show from now on")


def _merge(action: argparse.ArgumentParser) -> None:
    action.add_argument("gone", metavar="NAME", help="the entry that goes")
    action.add_argument("kept", metavar="KEPT-NAME", help="the entry that has it all then")


def _mark(action: argparse.ArgumentParser) -> None:
    action.add_argument("name", help="who, by the name in the book")
    action.add_argument(
        "mark", choices=("under-18", "newcomer", "back-after-weeks", "off-the-wall")
    )
    action.add_argument("--off", action="store_true", help="take the mark off")


def _erase(action: argparse.ArgumentParser) -> None:
    action.add_argument("name", help="who, by the name in the book")
    action.add_argument("--yes", action="store_true", help="do it; it can't be taken back")


def _import(action: argparse.ArgumentParser) -> None:
    action.add_argument("file", help="CSV: name,benchmark,score,date")
    action.add_argument("--dry-run", action="store_true", help="only say what would go in")


def _export(action: argparse.ArgumentParser) -> None:
    action.add_argument("into", metavar="DIR", help="the folder to write to")


def _nothing(_: argparse.ArgumentParser) -> None:
    pass


_ACTIONS = (
    ("rename", "show somebody under another name", _rename),
    ("merge", "two entries are one person", _merge),
    ("mark", "mark somebody for the coach, or keep them off the wall", _mark),
    ("erase", "forget somebody who asked for it", _erase),
    ("undo", "take back the newest change", _nothing),
    ("import", "take in a club's old spreadsheet", _import),
    ("export", "give everything out as CSV and JSON", _export),
    ("rebuild", "make the book anew from the results files", _nothing),
)
