"""The club's book, and those in it, that a command line speaks of."""

import difflib
from collections.abc import Iterator
from contextlib import contextmanager, suppress
from pathlib import Path

from sqlalchemy import Connection

from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.files.copies import remembers
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import kept_book, now_ns
from classclock.book.tables.opening import Book, on_a_server
from classclock.book.tables.queries import Athlete, all_athletes, find
from classclock.commands.shared.exit_status import BadUseError, FindingsError
from classclock.commands.shared.printing import say_wrong
from classclock.commands.shared.progress import progress_shown
from classclock.units.names import is_unnamed, tidy_name
from classclock.units.printable import can_be_shown

_LONGEST = 60
"""Letters of a name."""


@contextmanager
def asked_book(folder: Path, *, whole: bool = False) -> Iterator[Book]:
    """The book of the club in this folder, up to date; what was noticed meanwhile is said.

    `whole`: while somebody else writes in it, nothing is done: for who changes it, or takes a copy.

    Raises:
        FindingsError: it can't be had, or what is done with it meets a file that can't.
    """
    opened = kept_book(folder, now_ns(), whole=whole)
    with progress_shown(), faults_in_words(folder), opened as (book, caught):
        for notice in caught.notices:
            say_wrong(notice)
        yield book


def say_if_not_yet(why: str) -> None:
    """Say of what was just written down why it isn't in the book yet, if it isn't."""
    if why:
        say_wrong(
            f"It is written down here, and not in the book yet: {why}. It goes in "
            "with the next command in this club."
        )


def meet_other_rooms(folder: Path) -> None:
    """Carry out what other rooms of the book have ordered, before the club's own files are read.

    Where the server can't be reached it waits for the next time.
    """
    if on_a_server():
        with suppress(FindingsError), asked_book(folder):
            pass


@contextmanager
def faults_in_words(folder: Path) -> Iterator[None]:
    """What goes wrong with the book of the club in this folder, as lines for the coach.

    Raises:
        FindingsError: something went wrong.
    """
    try:
        yield
    except (BookError, ChangesDamagedError) as error:
        raise FindingsError(error) from error
    except OSError as error:
        raise FindingsError(f"{error.filename or folder}: {error.strerror}") from error


def say_if_forgotten(folder: Path) -> None:
    """Say of a copy that was just written that the club's folder can't note it."""
    if not remembers(folder):
        say_wrong(
            f"{folder} can only be read: it keeps no note of this copy, and who is erased from "
            "the club has to be taken out of the copy by hand"
        )


def asked_name(written: str) -> str:
    """A name that somebody is to have, as it is kept.

    Raises:
        BadUseError: it is none, or can't be shown.
    """
    name = tidy_name(written)
    if not name or len(name) > _LONGEST or not can_be_shown(name):
        raise BadUseError(f"that name can't be shown: write 1 to {_LONGEST} letters")
    if is_unnamed(name):
        raise BadUseError(f"{name} is nobody's name: write what they are called")
    return name


def the_one(connection: Connection, who: str) -> Athlete:
    """The athlete of this name or id.

    Raises:
        BadUseError: nobody is called so, or several are.
    """
    found = find(connection, who)
    if len(found) == 1:
        return found[0]
    if found:
        ids = [one.id for one in found]
        raise BadUseError(
            f"several people are called {who}: write which, {' or '.join(ids)}; two who are one "
            f"person become one by classclock book merge {ids[0]} {ids[1]}"
        )
    names = [one.name for one in all_athletes(connection)]
    near = difflib.get_close_matches(who, names, n=3, cutoff=0.5)
    instead = f"did you mean {' or '.join(near)}?" if near else "classclock chart shows who is"
    raise BadUseError(f"nobody in the book is called {who}: {instead}")
