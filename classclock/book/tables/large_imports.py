"""Imports too large for one batch: they go into the tables, and out of them, by people.

An import is one line of `changes.jsonl`, so it is there as a whole or not at all. The tables follow
it as they follow the results files, in batches between which others get at the book. A batch is of
whole people: of nobody is only a part of an import ever in the book, and what is worked out of it
goes in with it. Here stands how far each is; whoever comes next goes on, also with what was taken
back half way.
"""

from collections import Counter
from collections.abc import Iterator, Mapping
from typing import TypeVar

from msgspec import Struct
from sqlalchemy import ColumnElement, Connection, Table, delete, func, insert, or_, select

from classclock.book.files.import_lines import Import
from classclock.book.people_rules import PeopleRules
from classclock.book.tables.deriving import Touched, derive
from classclock.book.tables.imported_rows import Records, import_key, import_rows
from classclock.book.tables.schema import PERSONAL, half_in, results, seen
from classclock.book.tables.taking_in import Rows
from classclock.records.document import known

_Key = TypeVar("_Key")
RECORDS_AT_ONCE = 5_000
"""So many go in at once, and those of one person together however many they are."""
_GOES = -1
"""Of how many people it is in: what is there of it has to go first."""


def is_large(imported: Import) -> bool:
    """Whether it goes in, or out, by batches."""
    more = (known(imported.visits, ()), known(imported.lifts, ()))
    return len(imported.scores) + sum(map(len, more)) > RECORDS_AT_ONCE


def half_way(connection: Connection, room: str) -> tuple[int, ...]:
    """The numbers of this room's imports that are on their way in or out."""
    asked = select(half_in.c.n).where(half_in.c.room == room).order_by(half_in.c.n)
    return tuple(connection.execute(asked).scalars())


def put_in_later(connection: Connection, room: str, number: int) -> None:
    """Note that the import of this number has to go in; what is there under it goes first."""
    if _people_in(connection, room, number) is None:
        connection.execute(insert(half_in).values(room=room, n=number, people=0))


def take_out_later(connection: Connection, room: str, number: int) -> None:
    """Note that what is in the tables of the import of this number has to go."""
    _note(connection, room, number, _GOES)


class OnItsWay(Struct):
    """An import of a room on its way in, or out of the tables where none of this number stands."""

    room: str
    number: int
    imported: Import | None
    done: int = 0
    """How many people are done with, for who shows how far it is."""
    of: int = 1
    by_person: tuple[Records, ...] | None = None
    to_go: dict[str, int] | None = None
    """How many records it still has of which athlete, where it goes."""

    @property
    def class_key(self) -> str:
        return import_key(self.room, self.number)

    def go_on(self, connection: Connection, rules: PeopleRules) -> bool:
        """One batch; whether there is more to do."""
        people = _people_in(connection, self.room, self.number)
        if people is None:
            return False  # somebody else has done the rest
        if people != _GOES and self.imported is not None:
            return self._put_some_in(connection, rules, people, self.imported)
        if self._take_some_out(connection, rules):
            return True
        _note(connection, self.room, self.number, None if self.imported is None else 0)
        return self.imported is not None

    def _put_some_in(
        self, connection: Connection, rules: PeopleRules, people: int, imported: Import
    ) -> bool:
        if self.by_person is None:
            self.by_person = _by_person(imported)
        rows, touched = Rows(rules, self.room), Touched(in_all=True)
        sizes = {at: sum(map(len, some)) for at, some in enumerate(self.by_person) if at >= people}
        some = tuple(_at_once(sizes))
        for at in some:
            touched.update(import_rows(rows, self.class_key, imported, self.by_person[at]))
        rows.flush(connection)
        derive(connection, rules, touched)
        self.done, self.of = people + len(some), len(self.by_person)
        there_is_more = self.done < self.of
        _note(connection, self.room, self.number, self.done if there_is_more else None)
        return there_is_more

    def _take_some_out(self, connection: Connection, rules: PeopleRules) -> bool:
        """Whether there may be more to take out."""
        if self.to_go is None:
            self.to_go = _records_in(connection, self.class_key)
            self.done, self.of = 0, len(self.to_go) + 1
        some = tuple(_at_once(self.to_go))
        for table in PERSONAL:
            theirs = (table.c.athlete.in_(some),) if some else ()  # at last what names nobody
            connection.execute(delete(table).where(under(table, self.class_key), *theirs))
        derive(connection, rules, Touched(set(some), in_all=True))
        for athlete in some:
            del self.to_go[athlete]
        self.done += len(some)
        return bool(some)


def _by_person(imported: Import) -> tuple[Records, ...]:
    """The records of each person, in the order in which they are first named."""
    found: dict[str, tuple[list[int], list[int], list[int]]] = {
        one.athlete: ([], [], []) for one in imported.records
    }
    for number, score in enumerate(imported.scores):
        found[score.athlete][0].append(number)
    for number, visit in enumerate(known(imported.visits, ())):
        found[visit.athlete][1].append(number)
    for number, lift in enumerate(known(imported.lifts, ())):
        found[lift.athlete][2].append(number)
    return tuple(Records(*each) for each in found.values())


def _records_in(connection: Connection, class_key: str) -> dict[str, int]:
    """How many records of each athlete are in the tables."""
    found: Counter[str] = Counter()
    for table in (seen, results):
        asked = select(table.c.athlete, func.count()).where(under(table, class_key))
        for athlete, number in connection.execute(asked.group_by(table.c.athlete)):
            found[athlete] += number
    return dict(sorted(found.items()))


def _at_once(records: Mapping[_Key, int]) -> Iterator[_Key]:
    """Whose records make a batch: the first of them, until they are enough; at least one."""
    left = RECORDS_AT_ONCE
    for key, number in records.items():
        if left <= 0:
            return
        yield key
        left -= number


def under(table: Table, class_key: str) -> ColumnElement[bool]:
    """Whether a row is the import's own, or one of a visit that came in it."""
    column = table.c.class_key
    return or_(column == class_key, column.startswith(f"{class_key}/", autoescape=True))


def _people_in(connection: Connection, room: str, number: int) -> int | None:
    this = (half_in.c.room == room, half_in.c.n == number)
    return connection.execute(select(half_in.c.people).where(*this)).scalar()


def _note(connection: Connection, room: str, number: int, people: int | None) -> None:
    """`people`: of how many it is in; None: it is on its way no more."""
    this = (half_in.c.room == room, half_in.c.n == number)
    connection.execute(delete(half_in).where(*this))
    if people is not None:
        connection.execute(insert(half_in).values(room=room, n=number, people=people))
