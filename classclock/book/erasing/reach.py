"""What an erasure reaches in one club's folder, and taking somebody out of all of it."""

import os
from collections.abc import Callable, Iterable, Iterator, Mapping
from contextlib import contextmanager
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
    LookedAt,
    files_without,
    found_in,
    look_at,
    names_in,
    own_records,
    plain_text,
    tables_beside,
    those_naming,
)
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.changes import Changes
from classclock.book.files.changes_file import NAME
from classclock.book.files.copies import Copy, copies, forget_missing
from classclock.book.files.held_file import in_use
from classclock.book.files.saved_results import ResultsError
from classclock.book.tables.book_file import kept_versions
from classclock.book.under_way import steps
from classclock.machine.replacing import take_away
from classclock.machine.whole_file import written_together
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
    naming: tuple[Path, ...] | None = None
    """The records in which they may stand; None where that has still to be looked for."""

    @property
    def ids(self) -> frozenset[str]:
        return self.known.ids(self.changes.room)

    def look(self, seek: Scrub) -> tuple[LookedAt, ...]:
        """At those of the club's records in which they may stand."""
        naming = self.naming
        if naming is None:
            texts = self.ids | self.named.names
            paths = steps("Looking for their other names", own_records(self.folder))
            naming = tuple(those_naming(paths, texts))
        looked = (look_at(path, seek) for path in steps("Reading what names them", naming))
        return tuple(one for one in looked if one.started < self.before)


def search(
    folder: Path, changes: Changes, known: KnownUnder, others: Iterable[str], before: int
) -> Wanted:
    """Find more names in the club's own records first: a class may know one that the book doesn't.

    `others` are texts in which a name doesn't mean the person.
    """
    ids = known.ids(changes.room)
    scrub = Scrub(ids, NameFinder(frozenset()), "")
    paths = steps("Looking through journals and results", own_records(folder)) if ids else ()
    naming = tuple(those_naming(paths, ids | known.names))
    names = known.names.union(*(names_in(path, scrub) for path in naming))
    whole, named = KnownUnder(known.entries, names), name_finder(names, others)
    # Nearly always the book knows all their names: then each file is gone through once.
    found = naming if ids and named.names == known.names else None
    return Wanted(folder, changes, whole, named, before, found)


def reach_of(wanted: Wanted, answers: Mapping[int, bool]) -> tuple[Reach, Scrub]:
    """What there is to do, and with what. Nothing is changed.

    `answers` say of mentions, by their numbers from 1, whether the name goes.

    Raises:
        ClassRunningError: a class in which they are runs now.
        OSError: the folder can't be read.
    """
    seek = Scrub(wanted.ids, wanted.named, f"{ERASED}{os.urandom(6).hex()}")
    looked = wanted.look(seek)
    mentions = answered(_mentions(wanted, looked), answers)
    scrub = Scrub(
        seek.ids,
        seek.named,
        seek.token,
        staying(mentions, "note", "emergency", "reason", "flag", "file name"),
        going(mentions, "plan"),
    )
    reach = Reach(mentions=mentions)
    into = {"readable": reach.files, "damaged": reach.damaged, "later": reach.later}
    for path in (one.path for one in looked if one.may_change or scrub.goes):
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


class ChangedMeanwhileError(Exception):
    """What was read isn't what is there now: it has to be read again."""


@contextmanager
def written_without(wanted: Wanted, reach: Reach, scrub: Scrub) -> Iterator[Callable[[], None]]:
    """Write all that is in reach without them, beside what is there; then it is as it was still.

    What is given puts all of it in place, in a moment, and raises ChangedMeanwhileError where
    somebody changed something since, ClassRunningError, or OSError. The club's changes are left to
    whoever asks.

    Raises:
        OSError: something can't be written.
    """
    before: dict[Path, os.stat_result] = {}
    halves: list[Path] = []
    with written_together() as together:
        for path in steps("Writing without them", tuple(reach.files)):
            before[path] = path.stat()
            try:
                files = files_without(path, scrub)
            except ResultsError:  # somebody spoiled it since it was looked at
                reach.files.remove(path)
                reach.damaged.append(path)
                continue
            for written, data in files.items():
                together.write(written, data)
            if not files:
                halves.append(path)
        for path in plans(wanted.folder) if scrub.goes else ():
            before[path] = path.stat()
            if (plan := plan_file_without(path, wanted.named, scrub.goes)) is not None:
                together.write(path, plan)
        together.sync()

        def put_in_place() -> None:
            if not all(_is_as_it_was(path, stat) for path, stat in before.items()):
                raise ChangedMeanwhileError
            together.put_in_place()
            for path in (*halves, *reach.removed):
                take_away(path)
            forget_missing(wanted.folder)

        yield put_in_place


def _is_as_it_was(path: Path, before: os.stat_result) -> bool:
    try:
        now = path.stat()
    except OSError:
        return False
    same = (now.st_size, now.st_mtime_ns) == (before.st_size, before.st_mtime_ns)
    return same and not in_use(path)


def _mentions(wanted: Wanted, looked: Iterable[LookedAt]) -> tuple[Mention, ...]:
    found = Mentions()
    # Journals first: results say the same, with more or less around it.
    for one in sorted(looked, key=lambda one: one.path.suffix != ".jsonl"):
        found.add(one.path, one.texts, of_another=one.of_another)
    for path in plans(wanted.folder):
        found.add(path, texts_in_plan(path, wanted.named))
    found.add(wanted.folder / NAME, texts_in_changes(wanted.changes, wanted.named))
    return found.in_order()


def _names(copy: Copy, named: NameFinder) -> bool:
    return named.called_so(copy.path.stem) or named.stands_in(plain_text(copy.path))
