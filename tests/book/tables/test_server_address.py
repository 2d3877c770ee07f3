"""The address of a book on a server: nothing of its user or its password is ever said."""

from collections.abc import Callable
from pathlib import Path
from tempfile import TemporaryDirectory
from urllib.parse import quote

import pytest
from hypothesis import given
from hypothesis import strategies as st

from classclock.book.asking.answer_or_why import answer_or_why
from classclock.book.tables.book_error import BookError
from classclock.book.tables.opening import open_book
from classclock.book.tables.queries import all_athletes
from classclock.book.tables.server_address import (
    VARIABLE,
    AddressError,
    read_address,
    shown_address,
    without_secrets,
)

HOST = "127.0.0.1:1"
"""Nobody answers on port 1, and says so at once."""
DRIVER = "postgresql+psycopg://"
WAYS: tuple[Callable[[str, str], str], ...] = (
    lambda user, password: f"{DRIVER}{user}:{password}@{HOST}/depot",
    lambda user, password: f"{DRIVER}{quote(user, '')}:{quote(password, '')}@{HOST}/depot",
    lambda user, password: f"{DRIVER}{HOST}/depot?user={user}&password={password}",
    lambda user, password: f"{DRIVER}{HOST}/?user={quote(user, '')}&password={quote(password, '')}",
    lambda user, password: f"{DRIVER}{quote(f'{user}:{password}@', '')}{HOST}/depot",
    lambda user, password: f"{DRIVER}{user}:{password}@{HOST}0000/depot",
    lambda user, password: f"{DRIVER}{user}:{password}@127.0.0.1:{password}/depot",
    lambda user, password: f"{DRIVER}{user}:{password}@{HOST}/depot?{password}",
    lambda user, password: f"{DRIVER}{user}:{password}@{HOST}/depot?port={password}",
    lambda user, password: f"{DRIVER}{user}:{password}@",
    lambda user, password: f"postgres://{user}:{password}@{HOST}/depot",
    lambda user, password: f"{user}:{password}@{HOST}/depot",
)
"""How somebody may write it, rightly and wrongly."""
# Whatever is around and between, the word itself must never be seen.
words = st.tuples(st.text("@:/?#&=%[] \\ab1é", max_size=3), st.text("@:/?#&=%", max_size=2))
users = words.map(lambda around: f"{around[0]}KNOCK{around[1]}KNOCK")
passwords = words.map(lambda around: f"{around[0]}SESAME{around[1]}SESAME")


@given(st.sampled_from(WAYS), users, passwords)
def test_no_way_to_write_it_shows_a_secret(
    write: Callable[[str, str], str], user: str, password: str
) -> None:
    with pytest.MonkeyPatch.context() as patch, TemporaryDirectory() as folder:
        patch.setenv(VARIABLE, write(user, password))
        answer, said = answer_or_why(Path(folder), all_athletes)
    assert answer is None
    assert said
    assert "SESAME" not in said
    assert "KNOCK" not in said


@pytest.mark.parametrize(
    ("written", "says"),
    [
        ("coach:p@ss@host/depot", "%40 for @"),
        ("coach:ss@host:5432a/depot", "the port in CLASSCLOCK_BOOK is no number"),
        ("coach:ss@host:/depot", "the port in CLASSCLOCK_BOOK is no number"),
        ("coach:ss@host:65536/depot", "the port in CLASSCLOCK_BOOK is no number"),
        ("co/ach:ss@host/depot", "%2F for /"),
        ("coach%3Ass%40host/depot", "%25 for %"),
    ],
)
def test_a_wrong_address_is_a_sentence_that_says_what_to_write(written: str, says: str) -> None:
    with pytest.raises(AddressError, match=says):
        read_address(f"{DRIVER}{written}")


@pytest.mark.parametrize(
    ("written", "shown"),
    [
        ("coach:p%40ss@host:5432/depot", "host:5432/depot"),
        ("host/depot?user=coach&password=ss", "host/depot"),
        ("coach:ss@[::1]:5432/depot", "[::1]:5432/depot"),
        ("/depot?host=/run/postgresql", "this machine/depot"),
        ("coach:ss@[fe80::1%25eth0]/depot", "[fe80::1%25eth0]/depot"),
    ],
)
def test_where_the_book_is_is_shown_without_who_asks(written: str, shown: str) -> None:
    assert shown_address(read_address(f"{DRIVER}{written}")) == shown


def test_what_a_server_says_is_left_out_where_it_quotes_a_secret() -> None:
    address = read_address(f"{DRIVER}coach:p%40ss@host/depot?sslpassword=hush")
    assert without_secrets("permission denied for schema", address) != ""
    for quoted in ('role "coach" is not permitted', "p@ss", "hush"):
        assert without_secrets(quoted, address) == ""


def test_an_option_that_is_none_of_postgresqls_is_said(
    tmp_path: Path, monkeypatch: pytest.MonkeyPatch
) -> None:
    for option in ("pasword=ss", "port=ss"):
        monkeypatch.setenv(VARIABLE, f"{DRIVER}{HOST}/depot?{option}")
        with pytest.raises(BookError, match=r"none of PostgreSQL's: take it out") as told:
            open_book(tmp_path)
        assert "ss:" not in str(told.value)
