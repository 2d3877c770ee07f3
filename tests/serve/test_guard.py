"""Which requests are looked at at all."""

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.serve.guard import is_known, may_ask

HOME = ("192.168.1.20", 8420)
ALL = ("0.0.0.0", 8420)  # noqa: S104  no socket is bound
LOOPBACK = ("127.0.0.1", 8420)


@pytest.mark.parametrize(
    ("host", "listens", "known"),
    [
        (b"192.168.1.20:8420", HOME, True),
        (b"192.168.1.20", ("192.168.1.20", 80), True),
        (b"192.168.1.20", HOME, False),
        (b"192.168.1.20:80", HOME, False),
        (b"192.168.1.21:8420", HOME, False),
        (b"localhost:8420", HOME, False),
        (b"localhost:8420", LOOPBACK, True),
        (b"LOCALHOST:8420", LOOPBACK, True),
        (b"127.0.0.1:8420", LOOPBACK, True),
        (b"10.0.0.7:8420", ALL, True),
        (b"[fe80::1]:8420", ALL, True),
        (b"[::1]:8420", ("::1", 8420), True),
        (b"elsewhere.example:8420", ALL, False),
        (b"127.0.0.1.elsewhere.example:8420", LOOPBACK, False),
        (b"127.0.0.1:8420@elsewhere.example", LOOPBACK, False),
        (b"", LOOPBACK, False),
        (b":8420", LOOPBACK, False),
    ],
)
def test_a_host_is_an_address_of_this_server(
    host: bytes,
    listens: tuple[str, int],
    known: bool,  # noqa: FBT001  a column of the table
) -> None:
    assert is_known(host, listens) is known


@given(st.binary(max_size=80))
def test_no_name_is_taken_for_this_server(host: bytes) -> None:
    taken = is_known(host, LOOPBACK)
    assert not taken or host.lower() in (b"127.0.0.1:8420", b"localhost:8420", b"[127.0.0.1]:8420")


GOOD = [(b"host", b"127.0.0.1:8420")]


def test_a_plain_get_is_looked_at() -> None:
    assert may_ask("GET", "/", GOOD, LOOPBACK)
    assert may_ask("GET", "/", [*GOOD, (b"content-length", b"0")], LOOPBACK)


@pytest.mark.parametrize("method", ["HEAD", "POST", "PUT", "DELETE", "OPTIONS", "TRACE", "get", ""])
def test_no_other_method_is(method: str) -> None:
    assert not may_ask(method, "/", GOOD, LOOPBACK)


@pytest.mark.parametrize(
    "headers",
    [
        [],
        [*GOOD, *GOOD],
        [*GOOD, (b"content-length", b"7")],
        [*GOOD, (b"transfer-encoding", b"chunked")],
    ],
)
def test_no_host_two_of_them_or_a_body_is_refused(headers: list[tuple[bytes, bytes]]) -> None:
    assert not may_ask("GET", "/", headers, LOOPBACK)


def test_nor_is_a_path_that_is_longer_than_any_there_is() -> None:
    assert not may_ask("GET", "/" + "a" * 100, GOOD, LOOPBACK)
