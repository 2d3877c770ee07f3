"""The commands that show the book: `chart` and `athlete`."""

import argparse
import shutil
from pathlib import Path
from typing import Any

from classclock.book.files.copies import write_copy
from classclock.book.tables.opening import Book
from classclock.book.tables.queries import all_athletes, best_rows
from classclock.clock.source import local_now
from classclock.commands.book import AskedWrongError, the_one, with_book
from classclock.commands.headless import OK, print_json
from classclock.report.athlete_page import athlete_page
from classclock.report.athlete_text import athlete_lines, page_values
from classclock.report.chart import Cell, Chart, chart
from classclock.report.chart_csv import chart_csv
from classclock.report.chart_text import chart_lines


def show_chart(asked: argparse.Namespace, folder: Path, club: str) -> int:
    """Run `chart`: in the terminal, or into files."""
    return with_book(folder, lambda book: _chart(book, asked, club))


def _chart(book: Book, asked: argparse.Namespace, club: str) -> int:
    today = local_now().date()
    with book.reading() as connection:
        here = None
        if asked.here is not None:
            here = {the_one(connection, name).id for name in asked.here}
        everybody = all_athletes(connection)
        bests = best_rows(connection, here)
    try:
        shown = chart(everybody, bests, month=f"{today:%Y-%m}", here=here, sort=asked.sort)
    except LookupError as error:
        raise AskedWrongError(str(error.args[0])) from None
    if asked.html:
        from classclock.report.chart_page import chart_html  # noqa: PLC0415  jinja2: 40 ms

        write_copy(book.folder, Path(asked.html), chart_html(shown, club, today))
    if asked.csv:
        write_copy(book.folder, Path(asked.csv), chart_csv(shown))
    if asked.json:
        print_json(_chart_values(shown))
    elif asked.html or asked.csv:
        print("\n".join(path for path in (asked.html, asked.csv) if path))
    else:
        print("\n".join(chart_lines(shown, _width())))
    return OK


def _chart_values(shown: Chart) -> dict[str, Any]:
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


def show_athlete(asked: argparse.Namespace, folder: Path, club: str) -> int:
    """Run `athlete NAME`: in the terminal, or into a page for the athlete."""
    return with_book(folder, lambda book: _athlete(book, asked, club))


def _athlete(book: Book, asked: argparse.Namespace, club: str) -> int:
    today = local_now().date()
    with book.reading() as connection:
        athlete = the_one(connection, asked.name)
        try:
            page = athlete_page(connection, athlete, today, asked.benchmark)
        except LookupError as error:
            raise AskedWrongError(f"{athlete.name}: {error.args[0]}") from None
    if asked.html:
        from classclock.report.athlete_html import athlete_html  # noqa: PLC0415  jinja2: 40 ms

        write_copy(book.folder, Path(asked.html), athlete_html(page, club, today))
    if asked.json:
        print_json(page_values(page))
    elif asked.html:
        print(asked.html)
    else:
        print("\n".join(athlete_lines(page, _width())))
    return OK


def _width() -> int:
    return max(60, shutil.get_terminal_size().columns)
