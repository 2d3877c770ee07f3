"""An athlete's page: how often they come, what they do, how it went. Values, from the book."""

from collections.abc import Mapping
from datetime import date

from msgspec import Struct
from sqlalchemy import Connection

from classclock.book.goals.standing import GoalNow, goals_now
from classclock.book.tables.efforts_said import classes_felt
from classclock.book.tables.lifted import LiftBest, lift_bests
from classclock.book.tables.queries import (
    Athlete,
    Best,
    best_rows,
    days_attended,
    history,
    usual_modifications,
)
from classclock.records.attendance import WeekAttended, first_day, weeks
from classclock.records.benchmark_headings import headings
from classclock.records.class_entries import benchmark_key
from classclock.records.effort_weeks import EffortWeek, effort_weeks
from classclock.records.result import Result


class AthletePage(Struct, frozen=True):
    athlete: Athlete
    weeks: tuple[WeekAttended, ...]
    """The last twelve, this one last."""
    efforts: tuple[EffortWeek, ...]
    """How hard the same weeks were."""
    modifications: tuple[tuple[str, int], ...]
    """What they modified in those weeks, and how often."""
    bests: tuple[Best, ...]
    lifts: tuple[LiftBest, ...]
    goals: tuple[GoalNow, ...]
    shown: str
    """The benchmark whose history is shown; empty where there is none."""
    history: tuple[Result, ...]
    headings: Mapping[str, str]
    """By benchmark what it is called, as on the chart."""

    def called(self, benchmark: str) -> str:
        """What a benchmark, or a lift, is called."""
        return self.headings.get(benchmark, benchmark)

    def goal_on(self, benchmark: str) -> GoalNow | None:
        """What they work towards there."""
        return next((one for one in self.goals if one.stands.goal.benchmark == benchmark), None)


def athlete_page(
    connection: Connection, athlete: Athlete, today: date, benchmark: str | None = None
) -> AthletePage:
    """The page as it stands today. The benchmark done most often is shown unless one is named.

    Raises:
        LookupError: they never did the benchmark that was named; `str` says which they did.
    """
    since = first_day(today)
    days = days_attended(connection, athlete.id, since.isoformat())
    rows = best_rows(connection, [athlete.id])
    bests = tuple(best for key in sorted(rows) for best in rows[key])
    shown = _shown(bests, benchmark)
    lifts = lift_bests(connection, athlete.id)
    written = {one.lift: one.written for one in lifts if one.written}
    runs = history(connection, [athlete.id], [shown]).get((athlete.id, shown), ())
    return AthletePage(
        athlete,
        weeks(map(date.fromisoformat, days), today),
        effort_weeks(classes_felt(connection, athlete.id, since.isoformat()), today),
        usual_modifications(connection, athlete.id, since.isoformat()),
        bests,
        lifts,
        goals_now(connection, today, [athlete.id]).get(athlete.id, ()),
        shown,
        runs,
        {**written, **headings([*runs, *(best.result for best in bests)])},
    )


def _shown(bests: tuple[Best, ...], benchmark: str | None) -> str:
    done: dict[str, int] = {}
    for best in bests:
        name = best.result.benchmark
        done[name] = done.get(name, 0) + best.times
    if benchmark is None:
        return max(done, key=lambda name: (done[name], name), default="")
    if benchmark_key(benchmark) not in done:
        known = ", ".join(sorted(done)) or "none yet"
        raise LookupError(f'no scores on "{benchmark}": there is {known}')
    return benchmark_key(benchmark)
