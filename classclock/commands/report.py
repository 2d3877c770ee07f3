"""The command `report`: one class as a page, or as text for a message."""

import argparse
from pathlib import Path
from typing import Any

from classclock.book.files.saved_results import newest, read_results
from classclock.club.folder import results
from classclock.commands.headless import FINDINGS, OK, print_json, say_wrong
from classclock.report.class_report import Standings, class_report


def report(asked: argparse.Namespace, folder: Path, club: str) -> int:
    """Run `report`: the latest class unless a results file is named."""
    document = read_results(Path(asked.results)) if asked.results else newest(results(folder))
    if document is None:
        say_wrong(
            f"{asked.results}: this is no results file: name a .json from the club's results folder"
            if asked.results
            else f"no results in {results(folder)} yet: they are saved when a class's cap ends"
        )
        return FINDINGS
    from classclock.records.class_entries import NotResultsError, read_class  # noqa: PLC0415

    try:
        read_class(document)
        made = class_report(document, _standings(folder, document), club)
    except (NotResultsError, KeyError, TypeError, ValueError, AttributeError) as error:
        say_wrong(f"{asked.results or results(folder)}: this results file is damaged: {error}")
        return FINDINGS
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


def _standings(folder: Path, document: dict[str, Any]) -> Standings:
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
