"""One row of a sheet as a score, or what is wrong with it, or what has to be asked first."""

from collections.abc import Callable, Iterable, Mapping
from datetime import date
from typing import TypeVar

from msgspec import Struct, field

from classclock.book.importing.headings import NEEDED, SheetField, SheetHeadings
from classclock.book.importing.likely import LikelyNames
from classclock.book.importing.old_days import (
    CountedDayError,
    DayOrder,
    EitherDayError,
    NoDayError,
    read_day,
)
from classclock.book.importing.old_scores import OldScore, Readings, Sense, score_readings
from classclock.book.importing.powers import (
    UsualScores,
    beyond_people,
    beyond_people_load,
    beyond_usual,
)
from classclock.book.importing.questions import Asking, PossibleAnswer, WaitingError
from classclock.book.importing.sheet_table import SheetRow
from classclock.records.bests import long_day
from classclock.records.class_entries import benchmark_key
from classclock.records.result import ScoreKind
from classclock.records.written_terms import NOT_SAID, tidy_loads, tidy_work
from classclock.units.digits import is_whole
from classclock.units.loads import Unit
from classclock.units.names import is_unnamed, tidy_name
from classclock.units.printable import can_be_shown, printable

_LONGEST = 60
_LONGEST_TERMS = 300
_FEW_MINUTES = 120
"""A bare number up to this may be a length in minutes as well as in seconds."""
_SAID_BY_HEADING: Mapping[str, Sense] = {
    **dict.fromkeys(("s", "sec", "secs", "seconds"), "seconds"),
    **dict.fromkeys(("min", "mins", "minutes", "mm:ss", "m:ss", "min:sec"), "minutes"),
    **dict.fromkeys(("h:mm", "hh:mm"), "hours"),
    **dict.fromkeys(("kg", "lb", "lbs"), "load"),
    "reps": "reps",
    "rounds": "rounds",
}
"""What numbers are where the heading has this in brackets: `Score (kg)`."""
_SENSES: Mapping[Sense, str] = {
    "seconds": "seconds",
    "minutes": "minutes and seconds",
    "hours": "hours and minutes",
    "reps": "reps",
    "rounds": "full rounds",
    "load": "a load",
}
Part = TypeVar("Part")


class OldRow(Struct, frozen=True):
    """One score from the file. `line` is the row's last line in it."""

    line: int
    name: str
    benchmark: str
    written: str
    """The benchmark with the sheet's capitals."""
    score: OldScore
    day: str
    modification: str
    loads: str
    work: str


class BookKnown(Struct, frozen=True):
    """What the book has, to hold a sheet against."""

    kinds: Mapping[str, ScoreKind] = field(default_factory=dict)
    """How each benchmark is scored."""
    usual: UsualScores = field(default_factory=dict)
    names: tuple[str, ...] = ()


class FaultError(Exception):
    """What is wrong with a row, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead


class RowReader:
    """Reads the rows of one sheet, all by the same answers."""

    def __init__(
        self, headings: SheetHeadings, known: BookKnown, asking: Asking, unit: Unit, today: date
    ) -> None:
        self._headings = headings
        self._known = known
        self._asking = asking
        self._hint = _SAID_BY_HEADING.get(headings.unit("score"), "said")
        self._unit = _unit_said(headings.unit("score"), unit)
        self._load_unit = _unit_said(headings.unit("load"), unit)
        self._today = today
        self._order: DayOrder = "either"
        self._kinds: dict[str, ScoreKind] = {}
        self._names = LikelyNames(known.names)
        self._benchmarks = LikelyNames(known.kinds)

    def get_ready(self, rows: Iterable[SheetRow], order: DayOrder) -> None:
        """Look at all rows first: which names there are, and how each benchmark is scored."""
        self._order = order
        kinds: dict[str, dict[ScoreKind, None]] = {}
        for row in rows:
            said = self._cells(row)
            if any(len(value) > _LONGEST_TERMS for value in said.values()):
                continue  # a finding, later
            self._names.met(tidy_name(said["name"]))
            benchmark = benchmark_key(said["benchmark"])
            self._benchmarks.met(benchmark)
            if kind := self._only_kind(said["score"]):
                kinds.setdefault(benchmark, {})[kind] = None
        for benchmark, found in kinds.items():
            # A cap leaves some with reps where others have a time.
            self._kinds[benchmark] = "time" if set(found) == {"time", "reps"} else next(iter(found))

    def read(self, row: SheetRow) -> OldRow:
        """Read one; all that has to be asked about it is asked together.

        Raises:
            FaultError: something in it can't be read.
            LeftOutError: it is to be left out.
            WaitingError: something has to be asked first.
        """
        said = self._checked(row)
        where = f"line {row.line}"
        name, waits_1 = _or_waiting(lambda: self._name(said["name"], where))
        benchmark, waits_2 = _or_waiting(lambda: self._benchmark(said["benchmark"], where))
        day, waits_3 = _or_waiting(lambda: self._day(said["date"], where))
        if benchmark is None:
            raise WaitingError
        score, waits_4 = _or_waiting(lambda: self._score(said["score"], benchmark, where))
        if score is None:
            raise WaitingError
        loads, waits_5 = _or_waiting(lambda: self._loads(said.get("load"), score.kind, where))
        work, waits_6 = _or_waiting(lambda: self._work(said.get("work"), score.kind, where))
        if any((waits_1, waits_2, waits_3, waits_4, waits_5, waits_6)):
            raise WaitingError
        return OldRow(
            row.line,
            name or "",
            benchmark,
            _with_capitals(said["benchmark"], benchmark),
            score,
            day or "",
            " ".join(said.get("modification", "").split()),
            loads or "",
            work or "",
        )

    def check_usual(self, row: OldRow, in_sheet: UsualScores) -> OldRow:
        """Ask about a score that lies far from the others on its benchmark.

        Raises: as `Asking.answer` does.
        """
        usual = {**in_sheet, **self._known.usual}
        beyond = beyond_people(row.score)
        if not beyond and not beyond_usual(row.benchmark, row.score, usual):
            return row
        why = "beyond what people can do" if beyond else "far from the others"
        self._asking.answer(
            f"far:{row.benchmark}",
            f"{row.benchmark}: is that right? It lies {why}",
            [PossibleAnswer("take", "take them as they are")],
            f"{row.score.score} (line {row.line})",
        )
        return row

    # -- its parts -------------------------------------------------------------------

    def _cells(self, row: SheetRow) -> dict[SheetField, str]:
        found = {one.field: one.place for one in self._headings.every if one.field is not None}
        return {
            name: row.cells[place] if place < len(row.cells) else ""
            for name, place in found.items()
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

    def _name(self, written: str, where: str) -> str:
        name = tidy_name(written)
        if is_unnamed(name):
            raise FaultError(f"{name} is nobody's name", "Write who it was, or take the row out")
        return self._meant("name", name, self._names, where)

    def _benchmark(self, written: str, where: str) -> str:
        key = benchmark_key(written)
        return self._meant("benchmark", key, self._benchmarks, where)

    def _meant(self, what: str, written: str, likely: LikelyNames, where: str) -> str:
        """What is written, unless the coach says that something like it was meant."""
        near = likely.near(written)
        if not near:
            return written
        choices = [PossibleAnswer(one, f"yes, it is {one}") for one in near]
        new = PossibleAnswer(
            "new", "no, it is somebody new" if what == "name" else "no, it is a new one"
        )
        chosen = self._asking.answer(
            f"{what}:{written}",
            f"{written}: did you mean {' or '.join(near)}?",
            [*choices, new],
            where,
        )
        return written if chosen == "new" else chosen

    def _only_kind(self, written: str) -> ScoreKind | None:
        try:
            readings = score_readings(written, self._unit, None)
        except ValueError:
            return None
        kinds = {one.kind for one in self._by_heading(readings).values()}
        return kinds.pop() if len(kinds) == 1 else None

    def _score(self, written: str, benchmark: str, where: str) -> OldScore:
        kind = self._known.kinds.get(benchmark) or self._kinds.get(benchmark)
        try:
            readings = self._by_heading(score_readings(written, self._unit, kind))
        except ValueError as error:
            raise FaultError(f'"{printable(written)}" is no score', str(error)) from None
        if "said" in readings:
            return readings["said"]
        sense = self._sense(readings, benchmark, f"{printable(written)} ({where})")
        if sense not in readings:
            raise FaultError(
                f'"{printable(written)}" can\'t be {_SENSES[sense]}', "Write it as it is meant"
            )
        return readings[sense]

    def _by_heading(self, readings: Readings) -> Readings:
        hint = self._hint
        return readings if hint not in readings else {"said": readings[hint]}

    def _sense(self, readings: Readings, benchmark: str, example: str) -> Sense:
        if set(readings) == {"minutes", "hours"}:
            key, question = "times", "times: the sheet has them as times of day; what are they?"
        else:
            decimals = "reps" not in readings and "rounds" not in readings and len(readings) > 1
            key = f"{'decimals' if decimals else 'numbers'}:{benchmark}"
            question = f"{benchmark}: what are its bare numbers?"
        choices = [
            PossibleAnswer(sense, f"{_SENSES[sense]}: this is {one.score}")
            for sense, one in readings.items()
        ]
        chosen = self._asking.answer(key, question, choices, example)
        return next(sense for sense in _SENSES if sense == chosen)

    def _day(self, written: str, where: str) -> str:
        try:
            return read_day(written, self._today, self._order)
        except NoDayError as error:
            raise FaultError(error.what, error.instead) from None
        except EitherDayError as either:
            days = (either.day_first.isoformat(), either.month_first.isoformat())
            choices = [
                PossibleAnswer(value, f"{written} is {long_day(day)}")
                for value, day in zip(("day-first", "month-first"), days, strict=True)
            ]
            question = "days: does the day stand first, or the month?"
            chosen = self._asking.answer("days", question, choices, f"{written} ({where})")
            return days[0] if chosen == "day-first" else days[1]
        except CountedDayError as counted:
            day = counted.day.isoformat()
            self._asking.answer(
                "day-numbers",
                "days: are these numbers a spreadsheet's count of days?",
                [PossibleAnswer("days", f"yes: {written} is {long_day(day)}")],
                f"{written} ({where})",
            )
            return day

    def _loads(self, written: str | None, kind: ScoreKind, where: str) -> str:
        """The load beside a score: an empty cell says there was none, no such column nothing."""
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

    def _work(self, written: str | None, kind: ScoreKind, where: str) -> str:
        if not written:
            return NOT_SAID
        bare = is_whole(written)
        if (
            bare
            and kind != "load"
            and int(written) <= _FEW_MINUTES
            and not self._headings.unit("work")
        ):
            choices = [PossibleAnswer("minutes", "minutes"), PossibleAnswer("seconds", "seconds")]
            question = "lengths: what are their bare numbers?"
            chosen = self._asking.answer("lengths", question, choices, f"{written} ({where})")
            written = f"{written} {chosen}"
        elif bare and kind != "load" and self._headings.unit("work"):
            written = f"{written} {self._headings.unit('work')}"
        try:
            return tidy_work(written, of_a_set=kind == "load")
        except ValueError as error:
            raise FaultError(f'"{printable(written)}" is no length', str(error)) from None


def _with_capitals(written: str, benchmark: str) -> str:
    """What the sheet has, unless the coach said that another was meant."""
    return tidy_name(written) if benchmark_key(written) == benchmark else benchmark


def _unit_said(said: str, otherwise: Unit) -> Unit:
    if said in ("lb", "lbs"):
        return "lb"
    return "kg" if said == "kg" else otherwise


def _sentence(error: ValueError) -> str:
    """What to write, of what a reader of loads says: `"x" is not a load: write "22.5 kg"`."""
    instead = str(error).rpartition(": ")[2]
    return instead[:1].upper() + instead[1:]


def _or_waiting(part: Callable[[], Part]) -> tuple[Part | None, bool]:
    try:
        return part(), False
    except WaitingError:
        return None, True
