"""One row of a sheet as a score, or what is wrong with it, or what has to be asked first."""

from collections import Counter
from collections.abc import Callable, Iterable
from datetime import date
from typing import TypeVar

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.day_asking import DayAsking
from classclock.book.importing.headings import NEEDED, SheetField, SheetHeadings
from classclock.book.importing.name_asking import NameAsking, with_capitals
from classclock.book.importing.old_days import DayOrder
from classclock.book.importing.old_row import FaultError, OldRow, RowWaitsError
from classclock.book.importing.powers import UsualScores
from classclock.book.importing.questions import Asking, WaitingError
from classclock.book.importing.score_asking import ScoreAsking
from classclock.book.importing.sheet_table import SheetRow
from classclock.book.importing.terms_asking import TermsAsking
from classclock.units.loads import Unit
from classclock.units.printable import can_be_shown, printable

_LONGEST = 60
_LONGEST_TERMS = 300
Part = TypeVar("Part")


class RowReader:
    """Reads the rows of one sheet, all by the same answers."""

    def __init__(
        self, headings: SheetHeadings, known: BookKnown, asking: Asking, unit: Unit, today: date
    ) -> None:
        self._places = {one.field: one.place for one in headings.every if one.field is not None}
        self._names = NameAsking(known, asking)
        self._days = DayAsking(asking, today)
        self._scores = ScoreAsking(known, asking, headings.unit("score"), unit, self._names.called)
        self._terms = TermsAsking(asking, headings, unit)

    def get_ready(self, rows: Iterable[SheetRow], order: DayOrder) -> None:
        """Look at all rows first: which names there are, and how each benchmark is scored."""
        self._days.order = order
        every = [
            said
            for said in map(self._cells, rows)
            if all(len(value) <= _LONGEST_TERMS for value in said.values())  # or a finding, later
        ]
        # Each once, with how often: a sheet of years says the same of few people over and over.
        names = Counter((said["name"], said["benchmark"]) for said in every)
        for (name, benchmark), times in names.items():
            self._names.met(name, benchmark, times)
        for benchmark, score in dict.fromkeys((said["benchmark"], said["score"]) for said in every):
            self._scores.met(benchmark, score)

    def read(self, row: SheetRow) -> OldRow:
        """Read one; all that has to be asked about it is asked together.

        Raises:
            FaultError: something in it can't be read.
            LeftOutError: it is to be left out.
            WaitingError: something has to be asked first.
        """
        said = self._checked(row)
        where = f"line {row.line}"
        name, waits_1 = _or_waiting(lambda: self._names.name(said["name"], where))
        benchmark, waits_2 = _or_waiting(lambda: self._names.benchmark(said["benchmark"], where))
        day, waits_3 = _or_waiting(lambda: self._days.day(said["date"], where))
        if benchmark is None:
            raise WaitingError
        score, waits_4 = _or_waiting(lambda: self._scores.score(said["score"], benchmark, where))
        if score is None:
            raise RowWaitsError(benchmark)
        loads, waits_5 = _or_waiting(lambda: self._terms.loads(said.get("load"), score.kind, where))
        length = said.get("work") or score.work
        work, waits_6 = _or_waiting(lambda: self._terms.work(length, score.kind, where))
        if score.work and work not in (None, score.work):
            raise FaultError(f"it says {score.work} and {work}", "Write which of both it was")
        read = OldRow(
            row.line,
            name or "",
            benchmark,
            with_capitals(said["benchmark"], benchmark),
            score,
            day or "",
            " ".join(said.get("modification", "").split()),
            loads or "",
            work or "",
        )
        if any((waits_1, waits_2, waits_3, waits_4, waits_5, waits_6)):
            raise RowWaitsError(benchmark, read)
        return read

    def check_usual(self, row: OldRow, in_sheet: UsualScores) -> OldRow:
        """Ask about a score that lies far from the others. Raises: as `Asking.answer` does."""
        return self._scores.check_usual(row, in_sheet)

    def _cells(self, row: SheetRow) -> dict[SheetField, str]:
        return {
            name: row.cells[place] if place < len(row.cells) else ""
            for name, place in self._places.items()
        }

    def _checked(self, row: SheetRow) -> dict[SheetField, str]:
        said = self._cells(row)
        for name in NEEDED:
            if not said[name]:
                raise FaultError(f"no {name}", f"Write a {name}, or take the row out")
        for name, value in said.items():
            longest = _LONGEST if name in NEEDED else _LONGEST_TERMS
            if len(value) > longest or not can_be_shown(value):
                raise FaultError(
                    f'"{printable(value)}" can\'t be shown',
                    f"Write a {name} of {longest} letters at most",
                )
        return said


def _or_waiting(part: Callable[[], Part]) -> tuple[Part | None, bool]:
    try:
        return part(), False
    except WaitingError:
        return None, True
