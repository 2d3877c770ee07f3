"""What an erasure reaches in one club's folder, and taking somebody out of all of it."""

import os
from collections.abc import Iterable, Mapping
from pathlib import Path

from msgspec import Struct, field

from classclock.book.erasing.changes_kept import texts_in_changes
from classclock.book.erasing.known_under import KnownUnder
from classclock.book.erasing.mentions import Mention, Mentions, answered, going, staying
from classclock.book.erasing.name_finding import NameFinder, name_finder
from classclock.book.erasing.other_files import (
    others_naming,
    plan_file_without,
    plans,
    texts_in_plan,
)
from classclock.book.erasing.own_records import (
    found_in,
    names_in,
    own_records,
    plain_text,
    started,
    tables_beside,
    texts_in,
    those_naming,
    write_without,
)
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.changes import NAME, Changes
from classclock.book.files.copies import Copy, copies, forget_missing
from classclock.book.files.held_file import in_use
from classclock.book.files.saved_results import ResultsError
from classclock.book.tables.opening import kept_versions
from classclock.machine.replacing import take_away
from classclock.records.erased import ERASED


class ClassRunningError(Exception):
    """A class is running, whose journal can't be rewritten; `str` says so."""


class Reach(Struct):
    """What an erasure comes to, each a line for the coach."""

    files: list[Path] = field(default_factory=list)
    """Records that speak of the person."""
    removed: list[Path] = field(default_factory=list)
    """Copies and older books, removed whole."""
    changed: list[Path] = field(default_factory=list)
    """Copies that somebody has changed since: they are left alone."""
    damaged: list[Path] = field(default_factory=list)
    """Records that may speak of the person and can't be read: they are left alone."""
    later: list[Path] = field(default_factory=list)
    """Those of a later classclock: they are left alone too."""
    later_books: tuple[str, ...] = ()
    """Books of a later one on the same server: who is in them can't be told."""
    beside: list[Path] = field(default_factory=list)
    """The tables that belong to either, and name the person."""
    others: list[Path] = field(default_factory=list)
    """Files in the club's folder that aren't ours to change, and are called so or say the name."""
    mentions: tuple[Mention, ...] = ()
    """Free texts with a name, and what becomes of each."""
    server_keeps: bool = False
    """Whether the server's tables were in use, and keep what was deleted for a while."""
    ordered: int = 0
    """How many other rooms of the book have still to carry it out."""

    @property
    def whole(self) -> bool:
        """Whether all records that may speak of the person can be written without them."""
        return not self.damaged and not self.later and not self.later_books


class Wanted(Struct, frozen=True):
    """Whom to look for in a club's folder, and up to when."""

    folder: Path
    changes: Changes
    known: KnownUnder
    named: NameFinder
    before: int
    """Classes that began earlier are meant; milliseconds since 1970."""

    @property
    def ids(self) -> frozenset[str]:
        return self.known.ids(self.changes.room)

    def records(self) -> tuple[Path, ...]:
        """Those of the club's records in which they may stand."""
        found = those_naming(own_records(self.folder), self.ids | self.named.names)
        return tuple(path for path in found if started(path) < self.before)


def search(
    folder: Path, changes: Changes, known: KnownUnder, others: Iterable[str], before: int
) -> Wanted:
    """Find more names in the club's own records first: a class may know one that the book doesn't.

    `others` are texts in which a name doesn't mean the person.
    """
    ids = known.ids(changes.room)
    scrub = Scrub(ids, NameFinder(frozenset()), "")
    recorded = those_naming(own_records(folder), ids) if ids else ()
    names = known.names.union(*(names_in(path, scrub) for path in recorded))
    whole = KnownUnder(known.entries, names)
    return Wanted(folder, changes, whole, name_finder(names, others), before)


def reach_of(wanted: Wanted, answers: Mapping[int, bool]) -> tuple[Reach, Scrub]:
    """What there is to do, and with what. Nothing is changed.

    `answers` say of mentions, by their numbers from 1, whether the name goes.

    Raises:
        ClassRunningError: a class in which they are runs now.
        OSError: the folder can't be read.
    """
    records = wanted.records()
    seek = Scrub(wanted.ids, wanted.named, f"{ERASED}{os.urandom(6).hex()}")
    mentions = answered(_mentions(wanted, records, seek), answers)
    scrub = Scrub(
        seek.ids,
        seek.named,
        seek.token,
        staying(mentions, "note", "emergency", "reason", "flag", "file name"),
        going(mentions, "plan"),
    )
    reach = Reach(mentions=mentions)
    into = {"readable": reach.files, "damaged": reach.damaged, "later": reach.later}
    for path in records:
        found = found_in(path, scrub)
        if found == "readable" and in_use(path):
            raise ClassRunningError(
                f"{path.name} is the journal of a class that runs now: erase when it is over"
            )
        if found != "nowhere":
            into[found].append(path)
    reach.beside += tables_beside((*reach.damaged, *reach.later), scrub)
    kept_copies = [copy for copy in copies(wanted.folder) if _names(copy, wanted.named)]
    for copy in kept_copies:
        (reach.removed if copy.unchanged else reach.changed).append(copy.path)
    reach.removed += kept_versions(wanted.folder)
    named_already = {*reach.removed, *reach.changed, *reach.beside}
    reach.others += others_naming(wanted.folder, wanted.named, named_already)
    return reach, scrub


def take_out(wanted: Wanted, reach: Reach, scrub: Scrub) -> None:
    """Write all that is in reach without them; the club's changes are left to whoever asks.

    Raises:
        OSError: something can't be written; begun again, it goes on.
    """
    for path in tuple(reach.files):
        try:
            write_without(path, scrub)
        except ResultsError:  # somebody spoiled it since it was looked at
            reach.files.remove(path)
            reach.damaged.append(path)
    if scrub.goes:
        for path in plans(wanted.folder):
            plan_file_without(path, wanted.named, scrub.goes)
    for path in reach.removed:
        take_away(path)
    forget_missing(wanted.folder)


def _mentions(wanted: Wanted, records: Iterable[Path], seek: Scrub) -> tuple[Mention, ...]:
    found = Mentions()
    # Journals first: results say the same, with more or less around it.
    for path in sorted(records, key=lambda path: path.suffix != ".jsonl"):
        texts, of_another = texts_in(path, seek)
        found.add(path, texts, of_another=of_another)
    for path in plans(wanted.folder):
        found.add(path, texts_in_plan(path, wanted.named))
    found.add(wanted.folder / NAME, texts_in_changes(wanted.changes, wanted.named))
    return found.in_order()


def _names(copy: Copy, named: NameFinder) -> bool:
    return named.called_so(copy.path.stem) or named.stands_in(plain_text(copy.path))
