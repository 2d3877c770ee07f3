"""`chart`: everybody's bests on the benchmarks, in the terminal or into files."""

import argparse
import csv
from datetime import date
from pathlib import Path
from typing import Any

from classclock.book.asking.chart_bests import chart_bests
from classclock.book.files.copies import write_copy
from classclock.book.goals.standing import goals_now
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_forgotten, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.load_values import load_values
from classclock.commands.shared.options import add_club, add_json, add_kept_off, names
from classclock.commands.shared.printing import page_width, print_json, say_left_out
from classclock.machine.standard_streams import say
from classclock.report.chart.chart import Cell, Chart, chart
from classclock.report.chart.chart_csv import chart_csv
from classclock.report.chart.chart_text import chart_lines
from classclock.report.chart.chart_words import best_words, order_words
from classclock.report.goal_words import goal_values
from classclock.units.names import tidy_name


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    add_kept_off(parser)
    parser.add_argument("--html", metavar="FILE", help="write it as a page")
    parser.add_argument("--csv", metavar="FILE", help="write it as a table")
    parser.add_argument(
        "--here", type=names, metavar='"ILSE, BRAM"', help="only who is here, with commas between"
    )
    parser.add_argument(
        "--benchmarks",
        type=_benchmarks,
        metavar='"BACK SQUAT, TURNTABLE"',
        help="only these, in this order, with commas between",
    )
    parser.add_argument(
        "--sort",
        default="name",
        metavar="BENCHMARK",
        help="its best first; of a lift the highest estimated maximum",
    )


def _benchmarks(written: str) -> tuple[str, ...]:
    """A name with a comma in it stands in quotes, as in a CSV (RFC 4180)."""
    try:
        named = next(csv.reader([written], skipinitialspace=True), [])
    except csv.Error:  # a line break within
        named = []
    found = tuple(filter(None, map(tidy_name, named)))
    if not found:
        raise argparse.ArgumentTypeError(
            f'"{written}" names no benchmark: write which, with commas between, '
            'as in "Back squat, Turntable"'
        )
    return found


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    today = local_now().date()
    with asked_book(folder) as book:
        shown = _chart(book, asked, today)
        if asked.html:
            from classclock.report.chart.chart_html import chart_html  # noqa: PLC0415  jinja2: 40 ms

            write_copy(folder, Path(asked.html), chart_html(shown, club.name, today))
        if asked.csv:
            write_copy(folder, Path(asked.csv), chart_csv(shown))
        if asked.html or asked.csv:
            say_if_forgotten(folder)
        if asked.json:
            print_json(_values(shown))
        elif asked.html or asked.csv:
            say(*(path for path in (asked.html, asked.csv) if path))
        else:
            say(*chart_lines(shown, page_width()))
    return OK


def _chart(book: Book, asked: argparse.Namespace, today: date) -> Chart:
    with book.reading() as connection:
        here = None
        if asked.here is not None:
            here = {the_one(connection, name).id for name in asked.here}
        named = {the_one(connection, name).id for name in asked.named}
        everybody = all_athletes(connection)
        # A benchmark that is asked for has a column though nobody who is here has done it yet.
        bests = chart_bests(connection, here if asked.benchmarks is None else None)
        goals = goals_now(connection, today)
    shown = [one for one in everybody if not one.off_the_wall or one.id in named | (here or set())]
    try:
        made = chart(
            shown,
            bests,
            month=f"{today:%Y-%m}",
            here=here,
            sort=asked.sort,
            benchmarks=asked.benchmarks,
            goals=goals,
        )
    except LookupError as error:
        raise BadUseError(error.args[0]) from None
    if here is None:
        chosen = set(made.benchmarks if asked.benchmarks is not None else (key for _, key in bests))
        on_it = {athlete for athlete, key in bests if key in chosen}
        say_left_out(len(on_it & {one.id for one in everybody} - {one.id for one in shown}))
    return made


def _values(shown: Chart) -> dict[str, Any]:
    return {
        "benchmarks": list(shown.benchmarks),
        "headings": [column.heading for column in shown.columns],
        "order": order_words(shown),
        "rows": [
            {
                "athlete": row.athlete,
                "name": row.name,
                "bests": {
                    benchmark: _cell_values(cell)
                    for benchmark, cell in zip(shown.benchmarks, row.cells, strict=True)
                    if cell is not None
                },
            }
            for row in shown.rows
        ],
    }


def _cell_values(cell: Cell) -> dict[str, Any]:
    best = cell.best
    return {
        "score": best.score,
        "shown": best_words(best),
        "maximum": _maximum_values(cell),
        "day": best.day,
        "modification": best.terms.modification,
        "loads": best.terms.loads,
        "work": best.terms.work,
        "new": cell.new,
        **({} if cell.goal is None else {"goal": goal_values(cell.goal.stands)}),
        "others": [
            {
                "score": other.score,
                "shown": best_words(other),
                "day": other.day,
                "terms": str(other.terms),
                "new": cell.is_new(other),
            }
            for other in cell.others
        ],
    }


def _maximum_values(cell: Cell) -> dict[str, Any] | None:
    """Of a lift what could be lifted once; None where nothing says it."""
    most = cell.maximum
    if most is None:
        return None
    formula = None if most.measured else most.formula
    return {**load_values(most.load), "estimated": not most.measured, "formula": formula}
