"""A goal as a coach writes it, held against what the club knows of the benchmark.

What isn't said is as the athlete last did it: the loads, and how long the piece is. Without a word
on options it is meant as written.
"""

import re
from collections.abc import Sequence
from datetime import date
from pathlib import Path
from typing import Any

from msgspec import UNSET, Struct
from sqlalchemy import Connection, Row

from classclock.book.files.goal_lines import GoalSet
from classclock.book.goals.benchmark import (
    BenchmarkKnown,
    NotKnownError,
    benchmark_known,
    length_of,
    options_named,
)
from classclock.book.goals.standing import done_towards
from classclock.book.importing.old_scores import OldScore, score_readings
from classclock.book.importing.powers import beyond_people
from classclock.book.people_ids import entry_said
from classclock.book.tables.opening import asking_room
from classclock.book.tables.queries import Athlete
from classclock.plan.amounts import rep_words
from classclock.records.class_entries import benchmark_key
from classclock.records.goals import Goal, GoalStands, goal_stands
from classclock.records.result import Result, Terms
from classclock.records.written_terms import NOT_SAID, tidy_loads, tidy_work
from classclock.units.loads import Unit
from classclock.units.names import name_key
from classclock.units.printable import printable

_REPS = re.compile(r"(.*\S)\s*x\s*(\d{1,2})", re.ASCII | re.IGNORECASE)
_TYPED = re.compile(
    r"(?P<score>.*?)(?:\s+with\s+(?P<option>.+?))?(?:\s+by\s+(?P<by>\S+))?", re.IGNORECASE
)
_EXAMPLE_DAY = "2027-03-01"


class GoalAsked(Struct, frozen=True, kw_only=True):
    """A goal in the coach's words; what is None wasn't said."""

    benchmark: str
    score: str
    by: str | None = None
    option: str | None = None
    """Several with commas between; None: as written."""
    loads: str | None = None
    length: str | None = None


def goal_typed(benchmark: str, typed: str) -> GoalAsked:
    """A goal in one line: `14`, `7+12 with step-up by 2027-03-01`."""
    found = _TYPED.fullmatch(" ".join(typed.split()))
    said = found.groupdict() if found is not None else {"score": typed}
    return GoalAsked(
        benchmark=benchmark,
        score=said["score"] or "",
        option=said.get("option"),
        by=said.get("by"),
    )


class GoalRead(Struct, frozen=True):
    goal: Goal
    line: GoalSet
    """What is to be written down."""
    stands: GoalStands
    """Beside what they did so far."""

    @property
    def best(self) -> Result | None:
        """Their best under its terms, where that is as good already."""
        best = self.stands.best
        return best if best is not None and self.goal.met_by(best) else None


class GoalRefusedError(Exception):
    """It can't be meant; `str` is one sentence that says what to write."""


def read_goal(
    connection: Connection,
    folder: Path,
    athlete: Athlete,
    asked: GoalAsked,
    *,
    unit: Unit,
    today: date,
) -> GoalRead:
    """The goal as it is kept. `folder` is the club's, `unit` that of its bare loads.

    Raises:
        GoalRefusedError: something in it can't be meant.
    """
    try:
        known = benchmark_known(connection, folder, asked.benchmark, unit)
        modification = options_named(asked.option, known, folder, unit)
    except NotKnownError as error:
        raise GoalRefusedError(str(error)) from None
    score, reps = _score(asked.score, known, unit)
    by = _day(asked.by, today)
    entry = entry_said(asking_room(connection), athlete.id)
    own = [row for row in known.rows if row.athlete == entry]
    terms = _terms(asked, known, own, unit, modification=modification, reps=reps)
    goal = Goal(
        athlete.id,
        benchmark_key(known.written),
        known.written,
        score.score,
        score.kind,
        score.worth,
        terms,
        today.isoformat(),
        by,
    )
    results = done_towards(connection, {athlete.id: (goal,)})
    stands = goal_stands(goal, results.get((athlete.id, goal.benchmark), ()))
    line = GoalSet(
        athlete=athlete.id,
        benchmark=known.written,
        score=score.score,
        kind=score.kind,
        worth=score.worth,
        since=goal.since,
        by=by or UNSET,
        modification=terms.modification or UNSET,
        loads=terms.loads,
        work=terms.work,
    )
    return GoalRead(goal, line, stands)


# -- the score, the day -------------------------------------------------------------


def _score(written: str, known: BenchmarkKnown, unit: Unit) -> tuple[OldScore, int]:
    """The score, and of a lift how many reps the set has: 1 unless `70 kg x 3` says so."""
    text, reps = written.strip(), 1
    if known.kind == "load" and (match := _REPS.fullmatch(text)):
        text, reps = match[1], int(match[2])
    refused = f'"{printable(written)}" is no goal on {printable(known.written)}'
    try:
        readings = score_readings(text, unit, known.kind)
    except ValueError as error:
        why = str(error)
        raise GoalRefusedError(f"{refused}: {why[:1].lower()}{why[1:]}") from None
    meant = list({one.score: one for one in readings.values()}.values())
    if len(meant) > 1:
        choices = " or ".join(one.score for one in meant)
        raise GoalRefusedError(f'"{printable(written)}" may be {choices}: write which')
    if not reps or not meant[0].worth:
        raise GoalRefusedError(f"{refused}: write more than nothing")
    if beyond_people(meant[0]):
        raise GoalRefusedError(f"{refused}: it lies beyond what people can do, write it again")
    return meant[0], reps


def _day(written: str | None, today: date) -> str:
    if written is None:
        return ""
    try:
        day = date.fromisoformat(written)
    except ValueError:
        raise GoalRefusedError(
            f'"{printable(written)}" is no day: write it as in {_EXAMPLE_DAY}'
        ) from None
    if day < today:
        raise GoalRefusedError(f"{day} is over: write a day to come, as in {_EXAMPLE_DAY}")
    return day.isoformat()


# -- its terms ----------------------------------------------------------------------


def _terms(
    asked: GoalAsked,
    known: BenchmarkKnown,
    own: Sequence[Row[Any]],
    unit: Unit,
    *,
    modification: str,
    reps: int,
) -> Terms:
    alike = [row for row in own if name_key(row.modification) == name_key(modification)]
    if known.kind == "load":
        return Terms(modification, NOT_SAID, rep_words(reps))
    try:
        loads = tidy_loads(asked.loads, unit) if asked.loads else _first(alike, "loads")
        work = tidy_work(asked.length, of_a_set=False) if asked.length else ""
    except ValueError as error:
        why = str(error)
        raise GoalRefusedError(f"{why[:1].lower()}{why[1:]}") from None
    if not work:
        work = _first((*alike, *own, *known.rows), "work") or length_of(known)
    return Terms(modification, loads if asked.loads or alike else NOT_SAID, work or NOT_SAID)


def _first(rows: Sequence[Row[Any]], column: str) -> str:
    return next((str(getattr(row, column)) for row in rows), "")
