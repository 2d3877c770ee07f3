"""What a row's score means: a bare number, or what a sheet made a time of day, is asked about."""

from collections.abc import Callable, Mapping

from classclock.book.importing.book_known import BookKnown
from classclock.book.importing.headings import unit_said
from classclock.book.importing.old_row import FaultError, OldRow
from classclock.book.importing.old_scores import OldScore, Readings, Sense, score_readings
from classclock.book.importing.powers import UsualScores, beyond_people, beyond_usual
from classclock.book.importing.questions import Asking, PossibleAnswer
from classclock.records.class_entries import benchmark_key
from classclock.records.result import ScoreKind
from classclock.units.loads import Unit
from classclock.units.printable import printable

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


def far_key(benchmark: str) -> str:
    """Of the question about scores that lie far from all others on a benchmark."""
    return f"far:{benchmark}"


class ScoreAsking:
    """First all rows are `met`, which says how each benchmark is scored; then each is read."""

    def __init__(
        self,
        known: BookKnown,
        asking: Asking,
        heading_unit: str,
        unit: Unit,
        called: Callable[[str], str],
    ) -> None:
        """`heading_unit`: what stands in brackets behind the heading of the scores.

        `called`: what a benchmark is called.
        """
        self._known = known
        self._called = called
        self._asking = asking
        self._hint = _SAID_BY_HEADING.get(heading_unit, "said")
        self._unit = unit_said(heading_unit, unit)
        self._met: dict[str, dict[ScoreKind, None]] = {}

    def met(self, benchmark: str, written: str) -> None:
        """A score that can only be of one kind tells how the benchmark is scored."""
        try:
            readings = score_readings(written, self._unit, None)
        except ValueError:
            return
        kinds = {one.kind for one in self._by_heading(readings).values()}
        if len(kinds) == 1:
            self._met.setdefault(benchmark_key(benchmark), {})[kinds.pop()] = None

    def score(self, written: str, benchmark: str, where: str) -> OldScore:
        """The score, as it was meant.

        Raises:
            FaultError: it is none, or not what was said of such numbers.
            LeftOutError, WaitingError: as `Asking.answer` does.
        """
        kind = self._known.kinds.get(benchmark) or self._kind_met(benchmark)
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
            far_key(row.benchmark),
            f"{self._called(row.benchmark)}: is that right? It lies {why}",
            [PossibleAnswer("take", "take them as they are")],
            f"{row.score.score} (line {row.line})",
        )
        return row

    def _kind_met(self, benchmark: str) -> ScoreKind | None:
        kinds = self._met.get(benchmark)
        if not kinds:
            return None
        # A cap leaves some with reps where others have a time.
        return "time" if set(kinds) == {"time", "reps"} else next(iter(kinds))

    def _by_heading(self, readings: Readings) -> Readings:
        hint = self._hint
        return readings if hint not in readings else {"said": readings[hint]}

    def _sense(self, readings: Readings, benchmark: str, example: str) -> Sense:
        if set(readings) == {"minutes", "hours"}:
            key, question = "times", "times: the sheet has them as times of day; what are they?"
        else:
            decimals = "reps" not in readings and "rounds" not in readings and len(readings) > 1
            key = f"{'decimals' if decimals else 'numbers'}:{benchmark}"
            question = f"{self._called(benchmark)}: what are its bare numbers?"
        choices = [
            PossibleAnswer(sense, f"{_SENSES[sense]}: this is {one.score}")
            for sense, one in readings.items()
        ]
        chosen = self._asking.answer(key, question, choices, example)
        return next(sense for sense in _SENSES if sense == chosen)
