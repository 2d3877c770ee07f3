"""The command `report`: one class as a page, or as text for a message."""

import argparse
from pathlib import Path

from classclock.book.files.saved_results import (
    DamagedResultsError,
    NotResultsError,
    ResultsError,
    newest,
    read_results,
)
from classclock.club.folder import results
from classclock.commands.headless import FINDINGS, OK, print_json, say_wrong
from classclock.records.document import ResultsDocument
from classclock.report.class_report import Standings, class_report


def report(asked: argparse.Namespace, folder: Path, club: str) -> int:
    """Run `report`: the latest class unless a results file is named."""
    try:
        named = Path(asked.results) if asked.results else None
        document = read_results(named) if named else newest(results(folder))
    except NotResultsError as error:
        say_wrong(
            f"{error.path}: this is no results file: name a .json from the club's results folder"
        )
        return FINDINGS
    except DamagedResultsError as error:
        say_wrong(f"{error.path}: this results file is damaged: {error.why}")
        return FINDINGS
    except ResultsError as error:
        say_wrong(str(error))
        return FINDINGS
    if document is None:
        say_wrong(f"no results in {results(folder)} yet: they are saved when a class's cap ends")
        return FINDINGS
    made = class_report(document, _standings(folder, document), club)
    if asked.json:
        from msgspec import to_builtins  # noqa: PLC0415

        print_json(to_builtins(made))
    elif asked.text or not asked.html:
        from classclock.report.class_text import class_lines  # noqa: PLC0415

        print("\n".join(class_lines(made)))
    if asked.html:
        from classclock.book.files.copies import write_copy  # noqa: PLC0415
        from classclock.report.class_page import class_html  # noqa: PLC0415

        write_copy(folder, Path(asked.html), class_html(made))
        if not asked.text and not asked.json:
            print(asked.html)
    return OK


def _standings(folder: Path, document: ResultsDocument) -> Standings:
    """What the book says; a book that can't be asked is said, and the report goes without."""
    from classclock.commands.book import in_words  # noqa: PLC0415  sqlalchemy takes its time
    from classclock.report.standings import class_standings  # noqa: PLC0415

    found: Standings = {}

    def ask() -> int:
        nonlocal found
        found = class_standings(folder, document)
        return OK

    if in_words(folder, ask) != OK:
        say_wrong("the report says nothing of bests this time")
    return found
