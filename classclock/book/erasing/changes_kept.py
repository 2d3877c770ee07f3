"""A room's changes without somebody: what was said of them goes, and so does what was undone."""

from collections.abc import Iterator
from pathlib import PurePath

from msgspec.structs import replace

from classclock.book.erasing.known_under import KnownUnder
from classclock.book.erasing.name_finding import NOBODY, NameFinder
from classclock.book.erasing.scrubbing import FreeText
from classclock.book.files.changes import (
    Change,
    Changes,
    Import,
    Merge,
    Rename,
    Undo,
)
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import standing_changes


def changes_without(
    read: Changes, known: KnownUnder, named: NameFinder, stays: frozenset[str] = frozenset()
) -> Changes:
    """All others as they were, under their numbers. `stays` are names of files that are kept."""
    standing = {line.n for line in standing_changes(read.lines)}
    left: dict[int, Change | None] = {}
    for line in read.lines:
        kept = _without(read.room, line, known)
        if kept is not None and line.n not in standing:
            kept = _undone_without(kept, named)
        if isinstance(kept, Import) and kept.file not in stays and named.called_so(kept.file):
            kept = replace(kept, file=f"{NOBODY}{PurePath(kept.file).suffix}")
        left[line.n] = kept
    gone = {number for number, kept in left.items() if kept is None}
    lines = (line for line in left.values() if line is not None)
    return Changes(
        read.room,
        tuple(line for line in lines if not (isinstance(line, Undo) and line.of in gone)),
    )


def texts_in_changes(read: Changes, named: NameFinder) -> Iterator[FreeText]:
    """The names of imported files in which a name stands."""
    for line in read.lines:
        if isinstance(line, Import) and named.called_so(line.file):
            yield FreeText("file name", line.file)


def _without(room: str, line: Change, known: KnownUnder) -> Change | None:
    if isinstance(line, Import):
        return line.kept(lambda one: entry_said(room, one.athlete) not in known.entries)
    said = (getattr(line, key, None) for key in ("athlete", "gone", "kept"))
    theirs = any(entry_said(room, one) in known.entries for one in said if one)
    return None if theirs else line


def _undone_without(line: Change, named: NameFinder) -> Change | None:
    """Of what counts no more nothing is lost by going after the name alone."""
    match line:
        case Import():
            return line.kept(lambda one: not named.is_one(one.name))
        case Rename() | Merge() if named.is_one(line.name):
            return None
        case _:
            return line
