"""One result of one athlete, what it is worth, and what it can be compared with."""

from datetime import UTC, datetime
from decimal import Decimal
from typing import Literal

from msgspec import Struct

from classclock.records.written_terms import (
    NOT_SAID,
    same_loads,
    same_options,
    same_work,
    terms_key,
)
from classclock.units.loads import Load
from classclock.units.times import parse_time

ScoreKind = Literal["rounds", "time", "reps", "load"]
"""What a benchmark is scored in. A time may be reps, where the cap came first."""
PROVISIONAL = "provisional"
"""Why a score can't be a best while nobody has settled it."""

A_ROUND = 10**6
"""More than the odd reps of any round: equal terms have rounds of equal size."""
FINISHED = 10**9
"""Any finish stands above any work that the cap cut off."""
_PER_KG = 10**8
"""An exact pound has eight decimals in kilograms."""


class Terms(Struct, frozen=True, gc=False):
    """Under what a score was made. `Result.compares` says which scores are compared by it."""

    modification: str = ""
    """The options used; empty is as written."""
    loads: str = ""
    """The loads used, station by station; `?` where nobody said."""
    work: str = ""
    """How long the piece was, or how many reps the set had; `?` where nobody said."""
    team: int = 1

    @property
    def key(self) -> str:
        """What terms have in common that are the same, however they are written."""
        return terms_key(self.modification, self.loads, self.work, self.team)

    def equal(self, other: "Terms", *, any_length: bool = False) -> bool:
        """Whether they are the same. What was not said on one side is taken to be the same.

        `any_length`: whatever the length of the piece.
        """
        return (
            self.team == other.team
            and same_options(self.modification, other.modification)
            and same_loads(self.loads, other.loads)
            and (any_length or same_work(self.work, other.work))
        )

    def __str__(self) -> str:
        """In words: `step-up; 22.5 kg; 16:00`."""
        team = f"team of {self.team}" if self.team > 1 else ""
        loads = "load not said" if self.loads == NOT_SAID else self.loads
        work = "" if self.work == NOT_SAID else self.work
        said = (self.modification or "as written", loads, work, team)
        return "; ".join(word for word in said if word)


class Result(Struct, frozen=True, gc=False):
    """What one athlete did in one piece."""

    athlete: str
    """Their id."""
    piece: str
    benchmark: str
    """What it is compared as: in small letters; empty where it doesn't come back."""
    day: str
    """The day, as in 2026-11-24."""
    moment: int
    """Milliseconds since 1970, so that results can be put in order."""
    score: str
    kind: ScoreKind
    worth: int | None
    """More is better, among results of equal terms; None can't be told."""
    total_reps: int | None
    terms: Terms
    why_not: str = ""
    """Why it can't be a best; empty where it can."""
    splits: tuple[int | None, ...] = ()
    """Whole seconds of each round."""
    round_reps: tuple[int, ...] = ()
    written: str = ""
    """The benchmark as the plan or the sheet has it: `Third Rail`."""

    @property
    def counts(self) -> bool:
        """Whether it can be a best."""
        return not self.why_not and self.worth is not None and bool(self.benchmark)

    @property
    def finish_s(self) -> int | None:
        """The seconds that the whole work took; None where it wasn't finished, or has no end."""
        return finish_of(self.worth) if self.kind == "time" and self.worth is not None else None

    def compares(self, other: "Result") -> bool:
        """Whether it can be told which of the two is better: they were made under equal terms.

        A time for work that was finished compares with any cap: with other times, and with what a
        cap cut off that came no sooner.
        """
        if self.terms.equal(other.terms):
            return True
        if "time" not in (self.kind, other.kind):
            return False
        finishes = [one for one in (self, other) if one.finish_s is not None]
        if not finishes or not self.terms.equal(other.terms, any_length=True):
            return False
        return len(finishes) == 2 or _within(finishes[0], other if finishes[0] is self else self)


def _within(finished: Result, cut_off: Result) -> bool:
    """Whether the whole work was done before the cap that cut the other one off."""
    try:
        cap = parse_time(cut_off.terms.work)
    except ValueError:
        return False  # a file that somebody wrote by hand
    return (finished.finish_s or 0) * 1000 <= cap


def rounds_worth(rounds: int, odd: int) -> int:
    return rounds * A_ROUND + odd


def finish_worth(seconds: int) -> int:
    """Less time is worth more, and more than any work left undone."""
    return 2 * FINISHED - seconds


def load_worth(kg: Decimal) -> int:
    return int(kg * _PER_KG)


def finish_of(worth: int) -> int | None:
    """The seconds that a time is worth; None where it was reps at the cap."""
    return 2 * FINISHED - worth if worth >= FINISHED else None


def kg_of(worth: int) -> Load:
    return Load(Decimal(worth) / _PER_KG, "kg")


def day_moment(day: str) -> int:
    """The moment of a result of which only the day is known: its midnight, in milliseconds."""
    return int(datetime.fromisoformat(day).replace(tzinfo=UTC).timestamp() * 1000)
