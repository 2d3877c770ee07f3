"""Goals in the book: kept as the changes of all rooms say, and asked for."""

from collections.abc import Collection, Iterable, Iterator
from datetime import datetime

from msgspec import Struct
from sqlalchemy import Connection, Row, delete, insert, select

from classclock.book.files.changes import Change, Changes
from classclock.book.files.goal_lines import GoalDropped, GoalSet, ImportedGoal
from classclock.book.files.import_lines import Import
from classclock.book.people_ids import entry_said, said_in
from classclock.book.people_rules import PeopleRules, standing_changes
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import goals
from classclock.records.class_entries import benchmark_key
from classclock.records.document import known
from classclock.records.goals import Goal
from classclock.records.result import Terms
from classclock.records.written_terms import NOT_SAID, tidy_work

GoalsByAthlete = dict[str, tuple[Goal, ...]]


class _Said(Struct, frozen=True):
    """A goal, or with no score the end of one, as a room's changes say it."""

    person: str
    day: str
    at: str
    benchmark: str
    goal: GoalSet | ImportedGoal | None


def keep_goals(connection: Connection, rooms: Iterable[Changes], rules: PeopleRules) -> None:
    """What the changes of all rooms say of goals, in place of what stood there."""
    connection.execute(delete(goals))
    rows = [
        {
            "athlete": athlete,
            "benchmark": said.benchmark,
            "since": said.day,
            "person": said.person,
            "written": said.goal.benchmark,
            "score": said.goal.score,
            "kind": said.goal.kind,
            "worth": said.goal.worth,
            "by": known(said.goal.by, ""),
            "until": until,
            "modification": known(said.goal.modification, ""),
            "loads": known(said.goal.loads, NOT_SAID),
            "work": _tidy(known(said.goal.work, NOT_SAID)),
        }
        for athlete, said, until in _with_ends(rooms, rules)
        if said.goal is not None
    ]
    if rows:
        connection.execute(insert(goals), rows)


def _with_ends(rooms: Iterable[Changes], rules: PeopleRules) -> Iterator[tuple[str, _Said, str]]:
    """Each goal with whose it is now and the day on which it ended, in order of time.

    One that ended on the day on which it was set was a slip: it never stood.
    """
    by_goal: dict[tuple[str, str], list[_Said]] = {}
    for said in sorted(_said(rooms, rules), key=lambda one: (one.day, one.at)):
        key = rules.athlete(said.person), said.benchmark
        by_goal.setdefault(key, []).append(said)
    for (athlete, _), each in by_goal.items():
        for said, after in zip(each, (*each[1:], None), strict=True):
            own = known(said.goal.until, "") if isinstance(said.goal, ImportedGoal) else ""
            ends = [day for day in (own, after.day if after else "") if day]
            until = min(ends, default="")
            if not until or until > said.day:
                yield athlete, said, until


def _said(rooms: Iterable[Changes], rules: PeopleRules) -> Iterator[_Said]:
    for room in rooms:
        for line in standing_changes(room.lines):
            for athlete, day, goal, benchmark in _in_line(line):
                person = entry_said(room.room, athlete)
                if not rules.erased(person, _moment(line.at)):
                    yield _Said(person, day, line.at, benchmark_key(benchmark), goal)


def _in_line(line: Change) -> Iterator[tuple[str, str, GoalSet | ImportedGoal | None, str]]:
    match line:
        case GoalSet():
            yield line.athlete, line.since, line, line.benchmark
        case GoalDropped():
            yield line.athlete, line.day, None, line.benchmark
        case Import():
            for goal in known(line.goals, ()):
                yield goal.athlete, goal.since, goal, goal.benchmark
        case _:
            pass


def _moment(at: str) -> int:
    return int(datetime.fromisoformat(at).timestamp() * 1000)


def _tidy(work: str) -> str:
    try:
        return tidy_work(work, of_a_set=False)
    except ValueError:
        return work


def goals_of(connection: Connection, of: Collection[str] | None = None) -> GoalsByAthlete:
    """By athlete's id their goals, ended ones too, in order of benchmarks and days; or everybody's.

    Nobody has an entry who has none.
    """
    room = asking_room(connection)
    asked = select(goals).order_by(goals.c.athlete, goals.c.benchmark, goals.c.since)
    if of is not None:
        asked = asked.where(goals.c.athlete.in_([entry_said(room, one) for one in of]))
    found: dict[str, list[Goal]] = {}
    for row in connection.execute(asked):
        goal = _goal(room, row)
        found.setdefault(goal.athlete, []).append(goal)
    return {athlete: tuple(theirs) for athlete, theirs in found.items()}


def standing_goals(connection: Connection, of: Collection[str] | None = None) -> GoalsByAthlete:
    """The same without those that ended."""
    every = goals_of(connection, of)
    standing = {
        athlete: tuple(one for one in theirs if not one.until) for athlete, theirs in every.items()
    }
    return {athlete: theirs for athlete, theirs in standing.items() if theirs}


def _goal(room: str, row: Row[tuple[object, ...]]) -> Goal:
    return Goal(
        said_in(room, row.athlete),
        row.benchmark,
        row.written,
        row.score,
        row.kind,
        row.worth,
        Terms(row.modification, row.loads, row.work),
        row.since,
        row.by,
        row.until,
    )
