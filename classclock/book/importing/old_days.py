"""Days as people write them: 2026-03-01, 1.3.2026, 01/03/26, 4 March 2026, March 4, 2026."""

import re
from collections.abc import Iterable
from datetime import date, timedelta
from typing import Literal

from classclock.units.printable import printable

DayOrder = Literal["day first", "month first", "either", "mixed"]
"""How the numbers of days with strokes stand in a sheet; either, where nothing tells."""

_YEAR = r"(\d{4}|\d{2})"
_DOTTED = re.compile(rf"(\d{{1,2}})\.\s*(\d{{1,2}})\.\s*{_YEAR}", re.ASCII)
_STROKES = re.compile(rf"(\d{{1,2}})([/-])(\d{{1,2}})\2{_YEAR}", re.ASCII)
_YEAR_FIRST = re.compile(r"(\d{4})([-/.])(\d{1,2})\2(\d{1,2})", re.ASCII)
_NAMED = re.compile(rf"(\d{{1,2}})(?:st|nd|rd|th|\.)?[\s-]+([a-z]+)\.?,?[\s-]+{_YEAR}", re.ASCII)
_NAME_FIRST = re.compile(rf"([a-z]+)\.?\s+(\d{{1,2}})(?:st|nd|rd|th)?,?\s+{_YEAR}", re.ASCII)
_WEEKDAY = re.compile(r"(?:mon|tue|wed|thu|fri|sat|sun)[a-z]*\.?,?\s+", re.ASCII)
_CLOCK = re.compile(r"[\sT]\d{1,2}:\d{2}(?::\d{2}(?:\.\d+)?)?(?:Z|[+-]\d{2}:?\d{2})?", re.ASCII)
_SERIAL = re.compile(r"\d{5}(?:\.\d+)?", re.ASCII)
_MONTHS = (
    *("january", "february", "march", "april", "may", "june"),
    *("july", "august", "september", "october", "november", "december"),
)
_EARLIEST = date(1950, 1, 1)
_DAY_ZERO = date(1899, 12, 30)
"""Spreadsheets count days from here: ECMA-376 part 1, 18.17.4.1, the 1900 date system."""
_NO_DATE = "Write year, month and day, as in 2026-03-01"


class NoDayError(Exception):
    """What is wrong with a day, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


class EitherDayError(Exception):
    """It may be two days, and nothing in the sheet tells which; the day first, the month first."""

    def __init__(self, day_first: date, month_first: date) -> None:
        super().__init__(day_first)
        self.day_first, self.month_first = day_first, month_first


class CountedDayError(Exception):
    """It is a bare number, which may be a spreadsheet's count of days, and this one then."""

    def __init__(self, day: date) -> None:
        super().__init__(day)
        self.day = day


def order_in(days: Iterable[str]) -> DayOrder:
    """Which way round days with strokes are meant: no month has a number above twelve."""
    found = [match for day in days if (match := _STROKES.fullmatch(_plain(day)))]
    day_first = any(int(match[1]) > len(_MONTHS) for match in found)
    month_first = any(int(match[3]) > len(_MONTHS) for match in found)
    if day_first and month_first:
        return "mixed"
    if day_first:
        return "day first"
    return "month first" if month_first else "either"


def read_day(written: str, today: date, order: DayOrder) -> str:
    """The day, as in 2026-03-01. With dots between, the day stands first, as everywhere.

    Raises:
        NoDayError: it is no day, or one that can't be meant.
        EitherDayError, CountedDayError: it has to be asked.
    """
    shown = printable(written)
    try:
        day = _day(_plain(written), today, order)
    except (ValueError, OverflowError):
        raise NoDayError(f'"{shown}" is no date here', _NO_DATE) from None
    return _possible(day, shown, today).isoformat()


def _possible(day: date, shown: str, today: date) -> date:
    if day > today:
        raise NoDayError(f"{shown} is still to come", "Write the day on which it was done")
    if day < _EARLIEST:
        raise NoDayError(f"{shown} is very long ago", "Write the year in full, as in 2026-03-01")
    return day


def _plain(written: str) -> str:
    """In small letters, without the day of the week and the time of day."""
    text = " ".join(written.split())
    if clock := _CLOCK.search(text):
        text = text[: clock.start()] + text[clock.end() :]
    return _WEEKDAY.sub("", text.casefold(), count=1).strip()


def _day(text: str, today: date, order: DayOrder) -> date:
    if match := _DOTTED.fullmatch(text):
        return date(_year(match[3], today), int(match[2]), int(match[1]))
    if match := _YEAR_FIRST.fullmatch(text):
        return date(int(match[1]), int(match[3]), int(match[4]))
    if match := _NAMED.fullmatch(text):
        return date(_year(match[3], today), _month(match[2]), int(match[1]))
    if match := _NAME_FIRST.fullmatch(text):
        return date(_year(match[3], today), _month(match[1]), int(match[2]))
    if match := _STROKES.fullmatch(text):
        return _with_strokes(match, today, order)
    if _SERIAL.fullmatch(text):
        day = _DAY_ZERO + timedelta(days=int(float(text)))
        raise CountedDayError(_possible(day, text, today))
    return date.fromisoformat(text)


def _with_strokes(match: re.Match[str], today: date, order: DayOrder) -> date:
    first, second, year = int(match[1]), int(match[3]), _year(match[4], today)
    plain = max(first, second) > len(_MONTHS) or first == second
    if not plain and order == "mixed":
        raise NoDayError(
            f"{match[0]}: the sheet has days both ways round",
            f"Write {date(year, second, first)} or {date(year, first, second)}",
        )
    if not plain and order == "either":
        raise EitherDayError(date(year, second, first), date(year, first, second))
    month_first = second > len(_MONTHS) if plain else order == "month first"
    return date(year, first, second) if month_first else date(year, second, first)


def _year(written: str, today: date) -> int:
    """Two digits are of this century where that has been, else of the last."""
    if len(written) == 4:
        return int(written)
    year = today.year // 100 * 100 + int(written)
    return year if year <= today.year else year - 100


def _month(written: str) -> int:
    """A month's name, or its first letters: three at least.

    Raises:
        ValueError: no month is called so.
    """
    for number, name in enumerate(_MONTHS, start=1):
        if len(written) >= 3 and name.startswith(written):
            return number
    raise ValueError(written)
