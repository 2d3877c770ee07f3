"""`chart`: everybody's bests on the benchmarks, in the terminal or into files."""

import argparse
from datetime import date
from pathlib import Path
from typing import Any

from classclock.book.files.copies import write_copy
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes, best_rows
from classclock.clock.source import local_now
from classclock.commands.shared.book import asked_book, say_if_forgotten, the_one
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import OK, BadUseError
from classclock.commands.shared.options import add_club, add_json, add_kept_off, names
from classclock.commands.shared.printing import page_width, print_json, say_left_out
from classclock.machine.standard_streams import say
from classclock.report.chart import Cell, Chart, chart
from classclock.report.chart_csv import chart_csv
from classclock.report.chart_text import chart_lines


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    add_json(parser)
    add_kept_off(parser)
    parser.add_argument("--html", metavar="FILE", help="write it as a page")
    parser.add_argument("--csv", metavar="FILE", help="write it as a table")
    parser.add_argument(
        "--here", type=names, metavar='"ILSE, BRAM"', help="only who is here, with commas between"
    )
    parser.add_argument("--sort", default="name", metavar="BENCHMARK", help="its best first")


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    today = local_now().date()
    with asked_book(folder) as book:
        shown = _chart(book, asked, today)
        if asked.html:
            from classclock.report.chart_html import chart_html  # noqa: PLC0415  jinja2: 40 ms

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
        bests = best_rows(connection, here)
    shown = [one for one in everybody if not one.off_the_wall or one.id in named | (here or set())]
    with_bests = {athlete for athlete, _ in bests}
    say_left_out(len(with_bests & {one.id for one in everybody} - {one.id for one in shown}))
    try:
        return chart(shown, bests, month=f"{today:%Y-%m}", here=here, sort=asked.sort)
    except LookupError as error:
        raise BadUseError(error.args[0]) from None


def _values(shown: Chart) -> dict[str, Any]:
    return {
        "benchmarks": list(shown.benchmarks),
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
        "day": best.day,
        "modification": best.terms.modification,
        "loads": best.terms.loads,
        "work": best.terms.work,
        "new": cell.new,
        "others": [
            {"score": other.score, "day": other.day, "terms": str(other.terms)}
            for other in cell.others
        ],
    }
