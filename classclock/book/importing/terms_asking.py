"""Under what a row's score was made: loads beyond people and bare lengths are asked about."""

from classclock.book.importing.headings import SheetHeadings, unit_said
from classclock.book.importing.old_row import FaultError
from classclock.book.importing.old_scores import ISO_OF_DAY, TIME_OF_DAY
from classclock.book.importing.powers import beyond_people_load
from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.records.result import ScoreKind
from classclock.records.written_terms import NOT_SAID, tidy_loads, tidy_work
from classclock.units.digits import is_whole
from classclock.units.loads import Unit
from classclock.units.printable import printable

_FEW_MINUTES = 120
"""A bare number up to this may be a length in minutes as well as in seconds."""


class TermsAsking:
    def __init__(self, asking: Asking, headings: SheetHeadings, unit: Unit) -> None:
        self._asking = asking
        self._load_unit = unit_said(headings.unit("load"), unit)
        self._work_unit = headings.unit("work")

    def loads(self, written: str | None, kind: ScoreKind, where: str) -> str:
        """The load beside a score: an empty cell says there was none, no such column nothing.

        Raises:
            FaultError: it is no load.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        if written is None:
            return "" if kind == "load" else NOT_SAID
        try:
            loads = tidy_loads(written, self._load_unit)
        except ValueError as error:
            raise FaultError(f'"{printable(written)}" is no load', _sentence(error)) from None
        if loads not in ("", NOT_SAID) and beyond_people_load(loads):
            self._asking.answer(
                "far:loads",
                "loads: is that right? It lies beyond what people can lift",
                [PossibleAnswer("take", "take them as they are")],
                f"{loads} ({where})",
            )
        return loads

    def work(self, written: str | None, kind: ScoreKind, where: str) -> str:
        """How long it was, or how many reps a set had.

        Raises:
            FaultError: it is neither.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        if not written:
            return NOT_SAID
        if kind != "load":
            if is_whole(written):
                written = self._length(written, where)
            elif match := TIME_OF_DAY.fullmatch(written) or ISO_OF_DAY.fullmatch(written):
                written = self._of_day(int(match[1]), int(match[2]), where)
        try:
            return tidy_work(written, of_a_set=kind == "load")
        except ValueError as error:
            raise FaultError(f'"{printable(written)}" is no length', str(error)) from None

    def _length(self, bare: str, where: str) -> str:
        """A bare number with what it counts, where its heading or the coach says it."""
        if self._work_unit:
            return f"{bare} {self._work_unit}"
        if int(bare) > _FEW_MINUTES:
            return bare
        choices = [PossibleAnswer("minutes", "minutes"), PossibleAnswer("seconds", "seconds")]
        question = "lengths: what are their bare numbers?"
        chosen = self._asking.answer("lengths", question, choices, f"{bare} ({where})")
        return f"{bare} {chosen}"

    def _of_day(self, hours: int, minutes: int, where: str) -> str:
        """What a sheet made of `12:00` where it took it for a time of day."""
        long, short = f"{hours}:{minutes:02}:00", f"{hours}:{minutes:02}"
        if not hours:
            return f"{minutes}:00"
        choices = [
            PossibleAnswer("minutes", f"minutes and seconds: this is {short}"),
            PossibleAnswer("hours", f"hours and minutes: this is {long}"),
        ]
        question = "lengths: the sheet has them as times of day; what are they?"
        chosen = self._asking.answer("lengths-of-day", question, choices, f"{long} ({where})")
        return short if chosen == "minutes" else long


def _sentence(error: ValueError) -> str:
    """What to write, of what a reader of loads says: `"x" is not a load: write "22.5 kg"`."""
    instead = str(error).rpartition(": ")[2]
    return instead[:1].upper() + instead[1:]
