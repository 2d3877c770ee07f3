"""How hard each class was for somebody: as the class has it, unless it was said otherwise after."""

from sqlalchemy import ColumnElement, Connection, FromClause, and_, case, delete, insert, select

from classclock.book.files.changes import Changes, EffortGiven
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import standing_changes
from classclock.book.tables.opening import asking_room
from classclock.book.tables.schema import classes, efforts_given, seen
from classclock.records.effort_weeks import ClassFelt

SEEN_WITH_EFFORT: FromClause = seen.join(
    efforts_given,
    and_(
        efforts_given.c.class_key == seen.c.class_key,
        efforts_given.c.person == seen.c.person,
    ),
    isouter=True,
)
EFFORT: ColumnElement[int | None] = case(
    (efforts_given.c.person.is_not(None), efforts_given.c.effort), else_=seen.c.effort
).label("effort")
"""Of `SEEN_WITH_EFFORT`: the one that counts."""


def keep_efforts(connection: Connection, read: Changes) -> None:
    """What a room's changes say of efforts, in place of what they said before; the last counts."""
    theirs = efforts_given.c.class_key.startswith(f"{read.room}/", autoescape=True)
    connection.execute(delete(efforts_given).where(theirs))
    last = {
        (line.journal, line.athlete): line.effort
        for line in standing_changes(read.lines)
        if isinstance(line, EffortGiven)
    }
    rows = [
        {
            "class_key": f"{read.room}/{journal}",
            "person": entry_said(read.room, athlete),
            "effort": effort,
        }
        for (journal, athlete), effort in last.items()
    ]
    if rows:
        connection.execute(insert(efforts_given), rows)


def classes_felt(connection: Connection, athlete: str, since: str) -> tuple[ClassFelt, ...]:
    """Each class that somebody came to from this day on, the earliest first.

    Two entries that were merged may be in one class: it counts once.
    """
    asked = (
        select(
            *(seen.c[name] for name in ("class_key", "person", "day", "moment", "here_s")),
            EFFORT,
            classes.c.title,
        )
        .select_from(
            SEEN_WITH_EFFORT.join(classes, classes.c.class_key == seen.c.class_key, isouter=True)
        )
        .where(seen.c.athlete == entry_said(asking_room(connection), athlete))
        .where(seen.c.came, seen.c.day >= since)
        .order_by(seen.c.moment, EFFORT.is_not(None), seen.c.person)
    )
    found = {
        row.moment: ClassFelt(
            row.class_key, row.person, row.day, row.title or "", row.effort, row.here_s
        )
        for row in connection.execute(asked)
    }
    return tuple(found.values())
