"""Ids of people: they say nothing of a name, and mean somebody only within one room.

An *entry* is the room and the id, `ROOM/ID`: so the book tells the people of all its rooms apart.
Files and classes say the id alone, since they are their room's; of another room's people they say
the whole entry.
"""

from collections.abc import Callable, Collection

_SIGNS = "bcdfghjkmnpqrstvwxz23456789"
"""No vowels, so that none becomes a word; nothing that is read for something else."""
_LENGTH = 10


def drawn_id() -> str:
    """An id by chance alone."""
    import secrets  # noqa: PLC0415  only for somebody new

    return "".join(secrets.choice(_SIGNS) for _ in range(_LENGTH))


def new_id(taken: Collection[str], draw: Callable[[], str] = drawn_id) -> str:
    """The id of somebody whom the club doesn't know yet."""
    while (ident := draw()) in taken:
        pass
    return ident


def is_drawn(ident: str) -> bool:
    """Whether an id was drawn: those of before were made of names."""
    return len(ident) == _LENGTH and not set(ident) - set(_SIGNS)


def entry_of(room: str, ident: str) -> str:
    """Whom a room's results mean by an id."""
    return f"{room}/{ident}"


def entry_said(room: str, said: str) -> str:
    """Whom a room's changes mean, or somebody who asks there."""
    return said if "/" in said else entry_of(room, said)


def said_in(room: str, entry: str) -> str:
    """The other way round: the id of one of the room's own people, the whole entry of others."""
    ident = entry.removeprefix(f"{room}/")
    return entry if "/" in ident else ident


def is_of(room: str, entry: str) -> bool:
    """Whether it is one of the room's own people."""
    return entry.startswith(f"{room}/")
