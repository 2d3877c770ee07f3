"""Erasing a person on request: from journals, results, changes, the book, and copies in reach."""

import html
import json
import os
from collections.abc import Callable, Iterator
from datetime import datetime
from pathlib import Path
from typing import Any

from msgspec import Struct, field
from msgspec.structs import replace
from sqlalchemy import Connection, select

from classclock.book.changing import utc
from classclock.book.erasing.scrubbing import Scrub
from classclock.book.files.changes import (
    Change,
    Changes,
    Erasure,
    Import,
    read_changes,
    write_changes,
)
from classclock.book.files.copies import copies, forget_missing
from classclock.book.files.journal_writer import in_use
from classclock.book.files.results_files import write_document
from classclock.book.files.saved_results import ResultsError, read_results
from classclock.book.people_rules import digest
from classclock.book.tables.book_lock import book_lock
from classclock.book.tables.catching_up import catch_up
from classclock.book.tables.opening import Book, forget_deleted, kept_versions
from classclock.book.tables.queries import Athlete
from classclock.book.tables.schema import seen
from classclock.club.folder import journals, results
from classclock.machine.whole_file import write_whole
from classclock.records.document import ResultsDocument
from classclock.records.erased import ERASED
from classclock.units.plain_json import read_json


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
    """Results that speak of the person and make no sense: they are left alone."""


OUT_OF_REACH = (
    "a sheet that was printed or a board that was photographed",
    "messages and files that were passed on, and copies in another place",
    "backups of this machine, or of a server that holds the book",
    "plans, and nicknames in notes: only the names in the book are looked for",
)
"""What no erasure can reach; said each time."""


def look(book: Book, athlete: Athlete) -> Reach:
    """What erasing somebody would reach. Nothing is changed.

    Raises:
        ClassRunningError: a class in which they are runs now.
        BookError, OSError: the records can't be read.
    """
    with book.reading() as connection:
        scrub = _scrub(connection, athlete)
    reach = Reach()
    for path, text in _records(book.folder):
        if scrub.recorded_in(text):
            if in_use(path):
                raise ClassRunningError(
                    f"{path.name} is the journal of a class that runs now: erase when it is over"
                )
            whole = path.suffix != ".json" or _results_without(path, scrub) is not None
            (reach.files if whole else reach.damaged).append(path)
    for copy in copies(book.folder):
        if scrub.named_in(_text(copy.path)):
            (reach.removed if copy.unchanged else reach.changed).append(copy.path)
    reach.removed += kept_versions(book.folder)
    return reach


def erase(book: Book, athlete: Athlete, now: datetime) -> Reach:
    """Erase somebody. It can't be taken back; begun again after a power cut, it goes on.

    Raises:
        ClassRunningError: a class in which they are runs now.
        BookError, ChangesDamagedError, OSError: the records can't be read or written.
    """
    reach = look(book, athlete)
    with book.reading() as connection:
        scrub = _scrub(connection, athlete)
    with book_lock(book.folder):
        for path in reach.files:
            _rewrite(path, scrub)
        for path in reach.removed:
            path.unlink(missing_ok=True)
        forget_missing(book.folder)
        _forget_in_changes(book.folder, scrub, now)
    catch_up(book, 0, thorough=True)
    forget_deleted(book)
    return reach


def _scrub(connection: Connection, athlete: Athlete) -> Scrub:
    asked = select(seen.c.person, seen.c.name).where(seen.c.athlete == athlete.id)
    found = connection.execute(asked.distinct()).all()
    ids = frozenset(row.person for row in found) | {athlete.id}
    names = frozenset(row.name for row in found) | {athlete.name}
    return Scrub(ids, names, f"{ERASED}{os.urandom(6).hex()}")


def _records(folder: Path) -> Iterator[tuple[Path, str]]:
    for path in sorted((*journals(folder).glob("*"), *results(folder).glob("*"))):
        if path.suffix in (".json", ".jsonl") or path.name.startswith(".writing-"):
            yield path, _text(path)


def _text(path: Path) -> str:
    """The file's words, without the escapes of its format."""
    raw = path.read_bytes().decode("utf-8", "replace")
    if path.suffix == ".html":
        return html.unescape(raw)
    if path.suffix == ".jsonl":
        return "\n".join(_without_escapes(line) for line in raw.splitlines())
    return _without_escapes(raw) if path.suffix == ".json" else raw


def _without_escapes(text: str) -> str:
    try:
        return json.dumps(read_json(text.encode()), ensure_ascii=False)
    except ValueError:
        return text


def _rewrite(path: Path, scrub: Scrub) -> None:
    if path.name.startswith(".writing-"):
        path.unlink(missing_ok=True)  # half a file, left by a power cut
    elif path.suffix == ".jsonl":
        write_whole(path, _scrubbed_lines(path.read_bytes(), scrub.event))
    elif (document := _results_without(path, scrub)) is not None:
        write_document(path, document)


def _results_without(path: Path, scrub: Scrub) -> ResultsDocument | None:
    """A results file's content without the person; None where it can't be written anew."""
    try:
        return scrub.results(read_results(path))
    except ResultsError:
        return None


def _scrubbed_lines(data: bytes, scrubbed: Callable[[dict[str, Any]], dict[str, Any]]) -> bytes:
    """A journal's lines anew. One that is torn or damaged goes: nobody can tell whom it names."""
    lines = []
    for line in data.split(b"\n")[:-1]:
        try:
            read = read_json(line)
        except ValueError:
            continue
        if not isinstance(read, dict):
            continue
        try:
            fields = read if "anchor" in read else scrubbed(read)
        except (AttributeError, KeyError, TypeError):
            continue
        lines.append(json.dumps(fields, ensure_ascii=True, separators=(",", ":")).encode())
    return b"".join(line + b"\n" for line in lines)


def _forget_in_changes(folder: Path, scrub: Scrub, now: datetime) -> None:
    changes = read_changes(folder)
    kept = tuple(line for old in changes.lines if (line := _without(old, scrub)) is not None)
    salt = os.urandom(16).hex()
    erasure = Erasure(
        salt=salt,
        digests=tuple(sorted(digest(salt, ident) for ident in scrub.ids)),
        before=int(now.timestamp() * 1000) + 1,
    )
    # The number after the last of all, so that none is given twice.
    numbered = replace(erasure, n=changes.next_number, at=utc(now))
    write_changes(folder, Changes(changes.room, (*kept, numbered)))


def _without(line: Change, scrub: Scrub) -> Change | None:
    if isinstance(line, Import):
        scores = tuple(score for score in line.scores if score.athlete not in scrub.ids)
        return replace(line, scores=scores) if scores else None
    named = (getattr(line, key, None) for key in ("athlete", "gone", "kept"))
    return None if any(ident in scrub.ids for ident in named) else line
