"""Sheets read as the command reads them, against a book that knows a little."""

from datetime import date
from typing import Any

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.powers import Usual
from classclock.book.importing.spreadsheet import SheetReading, Told, read_spreadsheet

TODAY = date(2026, 11, 25)
KNOWN = BookKnown(
    {"turntable": "rounds", "front squat": "load", "third rail": "time", "headway": "reps"},
    {
        ("front squat", False): Usual(60, 70),
        ("third rail", True): Usual(480, 700),
        ("headway", False): Usual(80, 120),
    },
    ("Ilse", "Bram", "Agda"),
)
HEAD = "name,benchmark,score,date"


def reading(*rows: str, head: str = HEAD, known: BookKnown = KNOWN, **said: Any) -> SheetReading:
    raw = "\n".join((head, *rows)).encode()
    return read_spreadsheet(raw, "old.csv", unit="kg", known=known, today=TODAY, told=Told(**said))


def asked(done: SheetReading) -> dict[str, tuple[str, ...]]:
    return {one.key: tuple(choice.value for choice in one.choices) for one in done.questions}


def scores(done: SheetReading) -> list[str]:
    assert not done.questions
    assert not done.findings
    return [row.score.score for row in done.rows]
