"""The address of a book on a server: read, refused in words, shown without what is secret in it."""

import re
from collections.abc import Iterator
from urllib.parse import unquote

from sqlalchemy import URL, Engine, create_engine
from sqlalchemy.engine import make_url
from sqlalchemy.exc import ArgumentError

VARIABLE = "CLASSCLOCK_BOOK"
DRIVER = "postgresql+psycopg"
_HOST = re.compile(r"[\w.-]+|[0-9A-Fa-f:.]+(%\w+)?")
"""A name, an IPv4 or an IPv6 address (RFC 3986, 3.2.2; a zone as in RFC 6874)."""
_WRITE = (
    f"write {DRIVER}://NAME:PASSWORD@HOST/DATABASE, and in NAME or PASSWORD %40 for @, %3A for :, "
    "%2F for /, %25 for %"
)


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
