"""Erasures that rooms order of each other in a book that they share, and who has carried them out.

An order holds no name: the entries and names that are meant stand in it as salted digests.
"""

from collections.abc import Iterator

from msgspec import Struct
from sqlalchemy import Connection, func, select

from classclock.book.files.changes import Carried, Changes, Erasure, read_change
from classclock.book.tables.schema import changes, rooms

KINDS = ("erase", "carried")


class Order(Struct, frozen=True):
    """An erasure of another room."""

    room: str
    erasure: Erasure

    @property
    def key(self) -> tuple[str, int]:
        return self.room, self.erasure.n


class CarriedOut(Struct, frozen=True):
    """How it stands with an order in one room."""

    room: str
    called: str
    """The name of its folder."""
    at: str
    """When it was carried out, RFC 3339; empty where it wasn't yet."""
    left: tuple[str, ...] = ()
    """Files that are to be looked at by hand there."""


class OrderStatus(Struct, frozen=True):
    room: str
    """Which gave the order."""
    called: str
    n: int
    at: str
    rooms: tuple[CarriedOut, ...]
    """All others, in the order of their names."""

    @property
    def done(self) -> bool:
        return all(one.at for one in self.rooms)


def outstanding(connection: Connection, own: str) -> tuple[Order, ...]:
    """What other rooms have ordered and this one hasn't carried out, as far as the book knows."""
    said = list(_said(connection))
    done = {
        (line.room, line.of) for room, line in said if room == own and isinstance(line, Carried)
    }
    found = (Order(room, line) for room, line in said if isinstance(line, Erasure))
    return tuple(
        one for one in found if one.room != own and one.erasure.names and one.key not in done
    )


def carried_out(own: Changes) -> frozenset[tuple[str, int]]:
    """The keys of the orders that a room has carried out, by its own file."""
    return frozenset((line.room, line.of) for line in own.lines if isinstance(line, Carried))


def finished(connection: Connection, own: str) -> frozenset[int]:
    """The numbers of this room's orders that every other room has carried out, with names still."""
    named = {
        line.n
        for room, line in _said(connection)
        if room == own and isinstance(line, Erasure) and line.names
    }
    if not named:
        return frozenset()
    done = (one.n for one in order_statuses(connection) if one.room == own and one.done)
    return frozenset(named.intersection(done))


def other_rooms(connection: Connection, own: str) -> int:
    """How many rooms the book has beside this one."""
    asked = select(func.count()).select_from(rooms).where(rooms.c.room != own)
    return int(connection.execute(asked).scalar_one())


def order_statuses(connection: Connection) -> tuple[OrderStatus, ...]:
    """Every order that was ever given in this book, the oldest first."""
    said = list(_said(connection))
    called = {row.room: row.called for row in connection.execute(select(rooms))}
    carried = {(line.room, line.of, room): line for room, line in said if isinstance(line, Carried)}
    ordered = {key[:2] for key in carried}
    orders = [
        (room, line)
        for room, line in said
        if isinstance(line, Erasure) and (line.names or (room, line.n) in ordered)
    ]
    return tuple(
        OrderStatus(
            room,
            called.get(room, ""),
            line.n,
            line.at,
            tuple(
                CarriedOut(other, name, done.at, done.left)
                if (done := carried.get((room, line.n, other)))
                else CarriedOut(other, name, "")
                for other, name in sorted(called.items(), key=lambda one: (one[1], one[0]))
                if other != room
            ),
        )
        for room, line in sorted(orders, key=lambda one: one[1].at)
    )


def _said(connection: Connection) -> Iterator[tuple[str, object]]:
    asked = select(changes).where(changes.c.kind.in_(KINDS)).order_by(changes.c.room, changes.c.n)
    return ((row.room, read_change(row.line)) for row in connection.execute(asked))
