"""A room's changes without somebody: what was said of them goes, and so does what was undone."""

from collections.abc import Collection, Iterator
from pathlib import PurePath

from msgspec.structs import replace

from classclock.book.erasing.known_under import KnownUnder
from classclock.book.erasing.name_finding import NOBODY, NameFinder
from classclock.book.erasing.scrubbing import FreeText, note_without, texts_in_note
from classclock.book.files.changes import Change, Changes, Merge, Rename, Undo
from classclock.book.files.import_lines import Import, ImportedScore
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import standing_changes
from classclock.records.document import known


def changes_without(
    read: Changes, whose: KnownUnder, named: NameFinder, stays: frozenset[str] = frozenset()
) -> Changes:
    """All others as they were, under their numbers. `stays` are texts that keep the name."""
    standing = {line.n for line in standing_changes(read.lines)}
    left: dict[int, Change | None] = {}
    for line in read.lines:
        kept = _without(read.room, line, whose)
        if kept is not None and line.n not in standing:
            kept = _undone_without(kept, named)
        if isinstance(kept, Import):
            kept = _import_without(kept, named, stays)
        left[line.n] = kept
    gone = {number for number, kept in left.items() if kept is None}
    lines = (line for line in left.values() if line is not None)
    return Changes(
        read.room,
        tuple(line for line in lines if not (isinstance(line, Undo) and line.of in gone)),
    )


def texts_in_changes(read: Changes, named: NameFinder) -> Iterator[FreeText]:
    """The names of imported files in which a name stands, and reasons in imported notes."""
    for line in read.lines:
        if isinstance(line, Import):
            if named.called_so(line.file):
                yield FreeText("file name", line.file)
            for score in line.scores:
                yield from texts_in_note(known(score.note, ""), named)


def _without(room: str, line: Change, whose: KnownUnder) -> Change | None:
    if isinstance(line, Import):
        return line.kept(lambda one: entry_said(room, one.athlete) not in whose.entries)
    said = (getattr(line, key, None) for key in ("athlete", "gone", "kept"))
    theirs = any(entry_said(room, one) in whose.entries for one in said if one)
    return None if theirs else line


def _import_without(line: Import, named: NameFinder, stays: Collection[str]) -> Import:
    if line.file not in stays and named.called_so(line.file):
        line = replace(line, file=f"{NOBODY}{PurePath(line.file).suffix}")
    return replace(line, scores=tuple(_score_without(score, named, stays) for score in line.scores))


def _score_without(
    score: ImportedScore, named: NameFinder, stays: Collection[str]
) -> ImportedScore:
    note = known(score.note, "")
    kept = note_without(note, named, stays)
    return score if kept == note else replace(score, note=kept)


def _undone_without(line: Change, named: NameFinder) -> Change | None:
    """Of what counts no more nothing is lost by going after the name alone."""
    match line:
        case Import():
            return line.kept(lambda one: not named.is_one(one.name))
        case Rename() | Merge() if named.is_one(line.name):
            return None
        case _:
            return line
