"""Which requests are looked at at all. What is refused is refused alike, whatever was wrong."""

import ipaddress
from collections.abc import Iterable

Headers = Iterable[tuple[bytes, bytes]]

_LOCAL = b"localhost"
MOST_HEADERS = 8_192
"""Bytes: a browser's have a tenth of that."""
_MOST_PATH = 64
"""Bytes: the longest path that there is has fewer."""


def may_ask(method: str, path: str, headers: Headers, listens: tuple[str, int]) -> bool:
    """Whether this is a GET without a body, for a host by which this server is known.

    `listens` are the address and the port that it listens on. A name would be anybody's: a page
    from elsewhere could have its own name lead here (DNS rebinding), so only addresses are taken,
    and `localhost`.
    """
    fields = list(headers)
    hosts = [value for name, value in fields if name == b"host"]
    return (
        method == "GET"
        and len(path) <= _MOST_PATH
        and len(hosts) == 1
        and is_known(hosts[0], listens)
        and not _has_body(fields)
        and sum(len(name) + len(value) for name, value in fields) <= MOST_HEADERS
    )


def is_known(host: bytes, listens: tuple[str, int]) -> bool:
    """Whether a Host field names this server."""
    address, port = listens
    bound = ipaddress.ip_address(address)
    name, colon, said_port = host.rpartition(b":")
    if not colon or host.endswith(b"]"):  # without one it is HTTP's own
        name, said_port = host, b"80"
    if said_port != str(port).encode():
        return False
    if name.lower() == _LOCAL:
        return bound.is_loopback or bound.is_unspecified
    try:
        asked = ipaddress.ip_address(name.decode("ascii").strip("[]"))
    except ValueError:
        return False
    return bound.is_unspecified or asked == bound


def _has_body(headers: Headers) -> bool:
    return any(
        name == b"transfer-encoding" or (name == b"content-length" and value.strip() != b"0")
        for name, value in headers
    )
