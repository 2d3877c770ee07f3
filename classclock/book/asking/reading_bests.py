"""Reading the own bests of a class's people from the book."""

from collections.abc import Collection
from datetime import datetime
from pathlib import Path

from msgspec.structs import replace
from sqlalchemy import Connection

from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.goals.standing import done_towards
from classclock.book.goals.table import GoalsByAthlete, goals_of
from classclock.book.tables.applying import athletes_now
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import caught_up
from classclock.book.tables.opening import OpensBook
from classclock.book.tables.queries import history
from classclock.records.class_entries import benchmark_key
from classclock.records.goals import Goal
from classclock.records.own_bests import OwnBests
from classclock.tally.record import ClassRecord


def read_own_bests(
    folder: Path,
    people: Collection[str],
    benchmarks: Collection[str],
    began: datetime,
    opened: OpensBook = caught_up,
) -> OwnBests:
    """What these people, by the ids that the class knows, did on these benchmarks before.

    Raises:
        BookError: the book can't be opened or reached.
        ChangesDamagedError: a line of the changes can't be read.
        OSError: the folder can't be read or written to.
    """
    with opened(folder) as book, book.reading() as asked:
        athletes = athletes_now(asked, people)
        found = history(asked, set(athletes.values()), benchmarks)
        goals = _not_reached(asked, set(athletes.values()), began)
    by_person = {
        (person, benchmark): found.get((athlete, benchmark), ())
        for person, athlete in athletes.items()
        for benchmark in benchmarks
    }
    own_goals: dict[tuple[str, str], tuple[Goal, ...]] = {}
    for person, athlete in athletes.items():
        for goal in goals.get(athlete, ()):
            key = person, goal.benchmark
            own_goals[key] = (*own_goals.get(key, ()), replace(goal, athlete=person))
    return OwnBests(by_person, _moment(began), own_goals)


def _not_reached(connection: Connection, of: Collection[str], began: datetime) -> GoalsByAthlete:
    """What stood on the day of the class and wasn't reached before it."""
    day, moment = began.date().isoformat(), _moment(began)
    stood = {
        athlete: tuple(one for one in theirs if one.stood_on(day))
        for athlete, theirs in goals_of(connection, of).items()
    }
    done = done_towards(connection, stood)
    return {
        athlete: tuple(
            goal
            for goal in theirs
            if not any(
                goal.reached_by(one)
                for one in done.get((athlete, goal.benchmark), ())
                if one.moment < moment
            )
        )
        for athlete, theirs in stood.items()
    }


def _moment(when: datetime) -> int:
    return int(when.timestamp() * 1000)


def bests_for(
    folder: Path, record: ClassRecord, started: str, opened: OpensBook = caught_up
) -> tuple[OwnBests, str]:
    """The own bests of a class's people, and what is wrong in words where they can't be read.

    `started` is RFC 3339, `opened` opens the book. Never raises for the book's sake.
    """
    benchmarks = {
        benchmark_key(segment.benchmark or segment.lift) for segment in record.plan.segment
    } - {""}
    people, began = {person.id for person in record.people}, datetime.fromisoformat(started)
    try:
        return read_own_bests(folder, people, benchmarks, began, opened), ""
    except (BookError, ChangesDamagedError) as error:
        return OwnBests(), str(error)
    except OSError as error:
        return OwnBests(), f"the book can't be read ({error.strerror}): own bests aren't shown"
