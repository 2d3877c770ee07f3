"""Reading from the book who comes back after weeks, and what they did before they were away."""

from collections import defaultdict
from collections.abc import Collection, Mapping
from datetime import date, timedelta
from pathlib import Path

from msgspec import Struct, field
from sqlalchemy import Connection, and_, func, select

from classclock.book.asking.fit_reading import FitQuestion, read_basis
from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.people_ids import entry_said
from classclock.book.tables.applying import athletes_now
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import caught_up
from classclock.book.tables.opening import OpensBook, asking_room
from classclock.book.tables.schema import athletes, seen
from classclock.plan.model import Plan
from classclock.planning.cap_fit import Basis
from classclock.records.returning import Attended, FirstWeeks, first_weeks

_HALF_A_YEAR = timedelta(days=182)
_KEPT = timedelta(days=28)
"""Nobody is new while the book itself is: everybody would be."""


class Returns(Struct, frozen=True):
    """Of some people, who is in their first weeks, and what tells what was usual for them."""

    weeks: Mapping[str, FirstWeeks] = field(default_factory=dict)
    """By the id that the class knows them by; who isn't in it comes as ever."""
    basis: Basis = field(default_factory=Basis)


class ReturnQuestion(Struct, frozen=True):
    people: Collection[str]
    """Their ids, as the class knows them."""
    plan: Plan
    today: date
    began: int
    """When the class begins, in milliseconds since 1970."""


def returns_for(folder: Path, asked: ReturnQuestion, opened: OpensBook = caught_up) -> Returns:
    """What the club's book says of them; nothing where it can't be asked.

    Loads sqlalchemy, and takes its time: for a thread.
    """
    try:
        with opened(folder) as book, book.reading() as connection:
            return read_returns(connection, folder, asked)
    except (BookError, ChangesDamagedError, OSError):
        return Returns()  # whoever asks the book for anything else says what is wrong


def read_returns(connection: Connection, folder: Path, asked: ReturnQuestion) -> Returns:
    """The same of a book that is open: one query for the days, one for who has been away.

    Raises: as `read_past` does.
    """
    came = attended(connection, asked.people, asked.today)
    every = {ident: first_weeks(one, asked.today) for ident, one in came.items()}
    weeks = {ident: one for ident, one in every.items() if one is not None}
    back = [ident for ident, one in weeks.items() if one.usual_until is not None]
    question = FitQuestion(back, asked.plan, asked.began)
    return Returns(weeks, read_basis(connection, folder, question))


def attended(connection: Connection, people: Collection[str], today: date) -> dict[str, Attended]:
    """When these people came in the last half a year, or the last time before; in one query."""
    room = asking_room(connection)
    now = athletes_now(connection, people)
    entry_of = {person: entry_said(room, athlete) for person, athlete in now.items()}
    kept_since = select(func.min(athletes.c.first_day)).where(athletes.c.first_day != "")
    lately = and_(
        seen.c.athlete == athletes.c.athlete,
        seen.c.came,
        seen.c.day >= (today - _HALF_A_YEAR).isoformat(),
    )
    asked = (
        select(
            athletes.c.athlete,
            athletes.c.first_day,
            athletes.c.last_day,
            kept_since.scalar_subquery().label("kept_since"),
            seen.c.day,
        )
        .select_from(athletes.outerjoin(seen, lately))
        .where(athletes.c.athlete.in_(set(entry_of.values())), athletes.c.first_day != "")
    )
    days: defaultdict[str, set[str]] = defaultdict(set)
    first: dict[str, str] = {}
    since = ""
    for athlete, first_day, last_day, kept, day in connection.execute(asked):
        days[athlete].add(day or last_day)
        first[athlete], since = first_day, kept
    if not since:
        since = str(connection.execute(kept_since).scalar() or "")
    return {
        person: _attended(days[entry], first.get(entry, ""), since, today)
        for person, entry in entry_of.items()
    }


def _attended(days: Collection[str], first: str, kept_since: str, today: date) -> Attended:
    began = date.fromisoformat(first) if first else today
    kept = bool(kept_since) and began - date.fromisoformat(kept_since) >= _KEPT
    new = kept and (not days or first in days)
    return Attended(tuple(map(date.fromisoformat, days)), new=new)
