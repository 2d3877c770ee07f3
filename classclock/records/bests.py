"""Bests: what a score is, beside the same athlete's earlier ones on the same benchmark.

Only scores of equal terms are compared; those made otherwise are named. Pure: results in, words
out.
"""

from collections.abc import Iterable, Sequence
from datetime import date
from decimal import ROUND_HALF_EVEN, Decimal
from typing import Literal

from msgspec import Struct
from msgspec.structs import replace

from classclock.records.result import Result, finish_of, kg_of
from classclock.records.written_terms import NOT_SAID
from classclock.tally.scores.on_for import Earlier, RoundsAndReps
from classclock.units.loads import Load, parse_load, plain
from classclock.units.times import show_time

BestVerdict = Literal["first", "best", "equal", "below", "not compared"]


class Standing(Struct, frozen=True):
    """How a score stands beside the best until then."""

    verdict: BestVerdict
    before: Result | None = None
    """The best until then, under equal terms."""
    by: str = ""
    """How far apart they are: `18 reps`, `0:12`, `2.5 kg`; empty where that can't be told."""
    others: tuple[Result, ...] = ()
    """Bests under other terms: named, not compared."""
    why_not: str = ""
    last: Result | None = None
    """The latest until then, under equal terms, whether it was the best or not."""
    goal: str = ""
    """The goal that it reaches; empty where it reaches none."""

    def words(self) -> str:
        """In a coach's words: `new best: 18 reps more than 7+12 of 2 October 2026`."""
        goal = f"goal reached: {self.goal}" if self.goal else ""
        return "; ".join(filter(None, (goal, self._compared())))

    def _compared(self) -> str:
        match self.verdict:
            case "not compared":
                return f"not compared: {self.why_not}" if self.why_not else ""
            case "first":
                return "first time" if not self.others else f"first time this way; {self._named()}"
        assert self.before is not None  # noqa: S101  the other verdicts compare with one
        before = f"{self.before.score} of {long_day(self.before.day)}"
        if self.verdict == "equal":
            return f"equals the best, {before}"
        if self.verdict == "below":
            return f"best {before}"
        return f"new best{':' if self.by else ','} {self.gain()}"

    def gain(self) -> str:
        """What is new in a best: `18 reps more than 7+12 of 2 October 2026`.

        Where no number says how much more it is: `after 7+12 of 2 October 2026`.
        """
        assert self.before is not None  # noqa: S101  a best has outdone one
        before = f"{self.before.score} of {long_day(self.before.day)}"
        return (
            f"{self.by} {_COMPARED[self.before.kind]} than {before}"
            if self.by
            else (f"after {before}")
        )

    def _named(self) -> str:
        return ", ".join(f"{other.score} with {other.terms}" for other in self.others)


_COMPARED = {"rounds": "more", "reps": "more", "time": "better", "load": "heavier"}


def standing(result: Result, results: Iterable[Result]) -> Standing:
    """How a result stands beside the earlier ones among the same athlete's on this benchmark."""
    earlier = [one for one in results if one.counts and one.moment < result.moment]
    equal = [one for one in earlier if one.compares(result)]
    last = max(equal, key=lambda one: one.moment, default=None)
    if not result.counts:
        return Standing("not compared", why_not=result.why_not, last=last)
    others = bests([one for one in earlier if not one.compares(result)])
    before = best_of(equal)
    if before is None:
        return Standing("first", others=others)
    verdict, by = _verdict(result, before), margin(result, before)
    return Standing(verdict, before, by, others, last=last)


def _verdict(result: Result, before: Result) -> BestVerdict:
    more = (result.worth or 0) - (before.worth or 0)
    if more > 0:
        return "best"
    return "equal" if more == 0 else "below"


def best_of(results: Iterable[Result]) -> Result | None:
    """The best among results of equal terms; of equal ones the earliest, since it stood first."""
    counting = [one for one in results if one.counts]
    return max(counting, key=lambda one: (one.worth or 0, -one.moment), default=None)


def bests(results: Sequence[Result]) -> tuple[Result, ...]:
    """The best for each set of terms, those used last first, but for what another outdoes."""
    by_terms: dict[str, list[Result]] = {}
    for one in sorted(results, key=lambda one: -one.moment):
        by_terms.setdefault(one.terms.key, []).append(one)
    found = [best for group in by_terms.values() if (best := best_of(group)) is not None]
    return tuple(best for best in found if outdone_by(best, found) is None)


def outdone_by(best: Result, others: Iterable[Result]) -> Result | None:
    """Of the bests under other lengths the one that outdoes this one: a time for finished work."""
    better = (
        one for one in others if in_one_line(one, best) and (one.worth or 0) > (best.worth or 0)
    )
    return best_of(better)


def in_one_line(one: Result, other: Result) -> bool:
    """Whether they compare, and their terms are said alike but for the length."""
    if one.terms.key == other.terms.key:
        return True
    alike = replace(one.terms, work=other.terms.work).key == other.terms.key
    said = NOT_SAID not in (one.terms.work, other.terms.work)
    return alike and said and one.compares(other)


def margin(one: Result, other: Result) -> str:
    """How far apart two results of equal terms are, in the benchmark's own terms."""
    if one.worth is None or other.worth is None or one.worth == other.worth:
        return ""
    match one.kind:
        case "load":
            return _load_margin(one, other)
        case "time":
            finishes = finish_of(one.worth), finish_of(other.worth)
            if None not in finishes:
                return show_time(abs(one.worth - other.worth) * 1000)
            if finishes != (None, None):
                return ""  # one was finished, the other cut off: no number says that
    if one.total_reps is None or other.total_reps is None:
        return _rounds_margin(one, other) if one.kind == "rounds" else ""
    reps = abs(one.total_reps - other.total_reps)
    return _counted(reps, "rep") if reps else _rounds_margin(one, other)


def _rounds_margin(one: Result, other: Result) -> str:
    """Between `7+12` and `7+3`, or where rounds count no reps: what can be told without sizes."""
    rounds, odd = _parts(one)
    other_rounds, other_odd = _parts(other)
    if rounds == other_rounds:
        return _counted(abs(odd - other_odd), "rep")
    return _counted(abs(rounds - other_rounds), "round") if odd == other_odd else ""


def _parts(result: Result) -> tuple[int, int]:
    rounds, _, odd = result.score.partition("+")
    return int(rounds), int(odd or 0)


def _counted(number: int, what: str) -> str:
    return f"{number} {what}" if number == 1 else f"{number} {what}s"


def _load_margin(one: Result, other: Result) -> str:
    """In the unit of both; across units in kilograms, to a tenth."""
    loads = [parse_load(result.score, "kg") for result in (one, other)]
    if loads[0].unit == loads[1].unit:
        return str(Load(abs(loads[0].amount - loads[1].amount), loads[0].unit))
    apart = abs(kg_of(one.worth or 0).amount - kg_of(other.worth or 0).amount)
    return f"{plain(apart.quantize(Decimal('0.1'), ROUND_HALF_EVEN))} kg"


def earlier_run(result: Result) -> Earlier | None:
    """The shape of an earlier run, for what a lane is on for and whether it is ahead.

    None where its rounds weren't timed. Marks end where a round's moment isn't known.
    """
    if result.kind not in ("rounds", "time"):
        return None
    in_rounds = not any(result.round_reps)
    at = work = 0
    marks: list[RoundsAndReps] = []
    for split, reps in zip(result.splits, result.round_reps, strict=False):
        if split is None or split < 0:  # files of before say less than nothing of a moved call
            break
        at, work = at + split * 1000, work + (1 if in_rounds else reps)
        if split:
            marks.append((at, work))
    if not marks:
        return None
    total = len(result.round_reps) if in_rounds else result.total_reps or work
    return Earlier(tuple(marks), total)


def long_day(day: str) -> str:
    """`2026-10-02` as 2 October 2026."""
    read = date.fromisoformat(day)
    return f"{read.day} {month_words(read)}"


def month_words(day: date) -> str:
    """The month of a day: `October 2026`."""
    return f"{_MONTHS[day.month - 1]} {day.year}"


_MONTHS = (
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
)
