"""The address of a book on a server, and what is wrong there: in words, without what is secret."""

import re
from collections.abc import Iterator
from typing import Any
from urllib.parse import unquote

from sqlalchemy import URL, Engine, create_engine
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError, DBAPIError, InterfaceError, OperationalError

VARIABLE = "CLASSCLOCK_BOOK"
DRIVER = "postgresql+psycopg"
_HOST = re.compile(r"[\w.-]+|[0-9A-Fa-f:.]+(%\w+)?")
"""A name, an IPv4 or an IPv6 address (RFC 3986, 3.2.2; a zone as in RFC 6874)."""
_WRITE = (
    f"write {DRIVER}://NAME:PASSWORD@HOST/DATABASE, and in NAME or PASSWORD %40 for @, %3A for :, "
    "%2F for /, %25 for %"
)

LOCKED = "55P03"
"""PostgreSQL's word for a lock that wasn't to be had (its manual, appendix A)."""
_REFUSED = ("password authentication failed", "no password supplied", "no pg_hba.conf entry")
"""What its server says of a name or a password that it doesn't take, in English."""
_LATER = "classes run on, and their results go in when"


class AddressError(Exception):
    """It is no address of a book; `str` says what to write, and nothing of what was written."""


def read_address(written: str) -> URL:
    """The address as the environment has it.

    A part that holds what only a name or a password could is refused: it would be shown.

    Raises:
        AddressError: it is none, or can't be told apart from its password.
    """
    try:
        address = make_url(written)
    except ArgumentError:
        raise AddressError(f"{VARIABLE} is no address of a book: {_WRITE}") from None
    except ValueError:
        raise _wrong_port() from None
    if address.drivername != DRIVER:
        raise AddressError(f"{VARIABLE} is no address of a book: {_WRITE}")
    if address.port is not None and not 0 < address.port < 65536:
        raise _wrong_port()
    known_host = address.host is None or _HOST.fullmatch(address.host)
    _, _, options = written.partition("?")
    if not known_host or "@" in unquote(address.database or "") or "@" in options:
        raise AddressError(f"the host in {VARIABLE} can't be told from its password: {_WRITE}")
    return address


def server_engine(address: URL, **connect: object) -> Engine:
    """What connects to that server, and does so with these arguments.

    Raises:
        AddressError: what stands behind the `?` is none of PostgreSQL's.
        ImportError: its driver isn't installed.
    """
    from psycopg import Error  # noqa: PLC0415  only a book on a server needs its driver
    from psycopg.conninfo import make_conninfo  # noqa: PLC0415

    try:
        make_conninfo(**{name: str(value) for name, value in address.query.items()})
        return create_engine(
            address,
            hide_parameters=True,
            paramstyle="format",  # by place, as SQLite has it
            connect_args=connect,
        )
    except (Error, ArgumentError):
        raise AddressError(
            f"an option behind the ? in {VARIABLE} is none of PostgreSQL's: take it out, or write "
            "it as its manual has it"
        ) from None


def _wrong_port() -> AddressError:
    return AddressError(
        f"the port in {VARIABLE} is no number from 1 to 65535: write HOST:5432, or HOST alone, "
        "and %3A for a : in the name or the password"
    )


def shown_address(address: URL) -> str:
    """Where the book is, without who asks and what with: `host:5432/database`."""
    host = address.host or "this machine"
    host = f"[{host}]" if ":" in host else host
    port = f":{address.port}" if address.port is not None else ""
    database = f"/{address.database}" if address.database else ""
    return f"{host}{port}{database}"


def without_secrets(said: str, address: URL) -> str:
    """What a server or its driver said; nothing where it quotes a name or a password."""
    return "" if any(secret in said for secret in _secrets(address)) else said


def _secrets(address: URL) -> Iterator[str]:
    each = [address.username, address.password]
    for values in address.query.values():
        each += [values] if isinstance(values, str) else values
    for secret in filter(None, each):
        yield str(secret)
        yield unquote(str(secret))


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
