"""What is wrong with a book on a server, in words: nothing of who asks and what with is said."""

from typing import Any

from sqlalchemy import URL
from sqlalchemy.exc import DBAPIError, InterfaceError, OperationalError

from classclock.book.tables.server_address import VARIABLE, shown_address, without_secrets

LOCKED = "55P03"
"""PostgreSQL's word for a lock that wasn't to be had (its manual, appendix A)."""
_REFUSED = ("password authentication failed", "no password supplied", "no pg_hba.conf entry")
"""What its server says of a name or a password that it doesn't take, in English."""
_LATER = "classes run on, and their results go in when"


def is_locked(error: DBAPIError) -> bool:
    """Whether somebody else has what was waited for."""
    return getattr(error.orig, "sqlstate", "") == LOCKED


def server_words(error: DBAPIError, address: URL) -> str:
    """What went wrong, and what to do."""
    where = shown_address(address)
    if isinstance(error, OperationalError | InterfaceError):
        if _has_no_such_database(error):
            return f"there is no database at {where}: put {VARIABLE} right; {_LATER} it is there"
        if _refuses(error):
            return (
                f"the server of the book at {where} refuses the name or the password: put "
                f"{VARIABLE} right; {_LATER} it is"
            )
        either = ", or its server refuses the name or the password" if _may_refuse(error) else ""
        return f"the book at {where} can't be reached{either}: {_LATER} it is back"
    first, *_ = [*str(error.orig).strip().splitlines(), ""]
    why = without_secrets(first, address)
    return (
        f"the book at {where} can't be used{f' ({why})' if why else ''}: put {VARIABLE} right, "
        "or `classclock book rebuild` makes it anew"
    )


def _has_no_such_database(error: DBAPIError) -> bool:
    said = str(error.orig)
    return 'database "' in said and "does not exist" in said


def _refuses(error: DBAPIError) -> bool:
    """Whether the server was there and let nobody in."""
    said = str(error.orig)
    return any(words in said for words in _REFUSED) or ('role "' in said and "not exist" in said)


def _may_refuse(error: DBAPIError) -> bool:
    """Whether it asked for a password: what it said then may be in another language.

    One that is being stopped has asked too.
    """
    tried: Any = getattr(error.orig, "pgconn", None)
    return tried is not None and (tried.needs_password or tried.used_password)
