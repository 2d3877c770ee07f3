"""Days as old spreadsheets have them: 2026-03-01, 1.3.2026, 01/03/2026 or 03/01/2026."""

import re
from datetime import date
from typing import Literal

from classclock.units.printable import printable

DayOrder = Literal["day first", "month first", "either", "mixed"]
"""How the numbers of days with strokes stand in a sheet; either, where nothing tells."""

_DOTTED = re.compile(r"(\d{1,2})\.\s*(\d{1,2})\.\s*(\d{4})", re.ASCII)
_STROKES = re.compile(r"(?<![\d/])(\d{1,2})/(\d{1,2})/(\d{4})(?![\d/])", re.ASCII)
_MONTHS = 12
_EARLIEST = date(1950, 1, 1)
_NO_DATE = "Write year, month and day, as in 2026-03-01"


class NoDayError(Exception):
    """What is wrong with a day, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


def order_in(text: str) -> DayOrder:
    """Which way round days with strokes are meant: no month has a number above twelve."""
    found = _STROKES.findall(text)
    day_first = any(int(first) > _MONTHS for first, _, _ in found)
    month_first = any(int(second) > _MONTHS for _, second, _ in found)
    if day_first and month_first:
        return "mixed"
    if day_first:
        return "day first"
    return "month first" if month_first else "either"


def read_day(written: str, today: date, order: DayOrder) -> str:
    """The day, as in 2026-03-01. With dots between, the day stands first, as everywhere.

    Raises:
        NoDayError: it is no day, or one that can't be meant.
    """
    shown = printable(written)
    try:
        day = _day(written, order)
    except ValueError:
        raise NoDayError(f'"{shown}" is no date here', _NO_DATE) from None
    if day > today:
        raise NoDayError(f"{shown} is still to come", "Write the day on which it was done")
    if day < _EARLIEST:
        raise NoDayError(f"{shown} is very long ago", "Write the year in full, as in 2026-03-01")
    return day.isoformat()


def _day(written: str, order: DayOrder) -> date:
    if match := _DOTTED.fullmatch(written):
        return date(int(match[3]), int(match[2]), int(match[1]))
    if match := _STROKES.fullmatch(written):
        first, second, year = (int(part) for part in match.groups())
        plain = max(first, second) > _MONTHS or first == second
        if not plain and order in ("either", "mixed"):
            raise _either_way(written, date(year, second, first), date(year, first, second), order)
        month_first = second > _MONTHS if plain else order == "month first"
        return date(year, first, second) if month_first else date(year, second, first)
    return date.fromisoformat(written)


def _either_way(written: str, one: date, other: date, order: DayOrder) -> NoDayError:
    why = "could be two days" if order == "either" else "the sheet has days both ways round"
    return NoDayError(f"{printable(written)}: {why}", f"Write {one} or {other}")
