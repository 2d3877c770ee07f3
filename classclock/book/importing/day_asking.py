"""Which day a row means: one that may be two, or a sheet's count of days, is asked about."""

from datetime import date

from classclock.book.importing.old_days import (
    CountedDayError,
    DayOrder,
    EitherDayError,
    NoDayError,
    read_day,
)
from classclock.book.importing.old_row import FaultError
from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.records.bests import long_day


class DayAsking:
    def __init__(self, asking: Asking, today: date) -> None:
        self._asking = asking
        self._today = today
        self.order: DayOrder = "either"
        """Which stands first in this sheet, as far as its days tell."""

    def day(self, written: str, where: str) -> str:
        """The day, as in 2026-11-24.

        Raises:
            FaultError: it is none, or lies ahead.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        try:
            return read_day(written, self._today, self.order)
        except NoDayError as error:
            raise FaultError(error.what, error.instead) from None
        except EitherDayError as either:
            return self._either(either, written, where)
        except CountedDayError as counted:
            return self._counted(counted, written, where)

    def _either(self, either: EitherDayError, written: str, where: str) -> str:
        days = (either.day_first.isoformat(), either.month_first.isoformat())
        choices = [
            PossibleAnswer(value, f"{written} is {long_day(day)}")
            for value, day in zip(("day-first", "month-first"), days, strict=True)
        ]
        question = "days: does the day stand first, or the month?"
        chosen = self._asking.answer("days", question, choices, f"{written} ({where})")
        return days[0] if chosen == "day-first" else days[1]

    def _counted(self, counted: CountedDayError, written: str, where: str) -> str:
        day = counted.day.isoformat()
        self._asking.answer(
            "day-numbers",
            "days: are these numbers a spreadsheet's count of days?",
            [PossibleAnswer("days", f"yes: {written} is {long_day(day)}")],
            f"{written} ({where})",
        )
        return day
