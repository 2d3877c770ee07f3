"""What the files of a club's folder have about one person, beside the book: each told by kind."""

import re
from collections.abc import Iterator
from pathlib import Path
from typing import Any

from msgspec import Struct, field

from classclock.book.files.copies import copies
from classclock.book.files.journal import JournalUnreadableError, read_journal
from classclock.book.files.saved_results import NotResultsError, ResultsError, read_results
from classclock.book.handing_over.in_classes import part_about
from classclock.book.handing_over.in_journals import lines_about, lines_naming, people_in
from classclock.book.handing_over.left_out import OnlyTheirNames
from classclock.book.under_way import steps
from classclock.club.folder import journals, results
from classclock.machine.plain_file import read_file
from classclock.records.erased import ERASED

_ESCAPE = re.compile(r"\\u([0-9a-fA-F]{4})")
_PLANS = ("plans/*.toml", "drafts/*", "club.toml", "movements.toml")
"""What a coach writes, and may name somebody in."""

Values = dict[str, Any]


class InFolder(Struct):
    """What was found."""

    classes: list[Values] = field(default_factory=list)
    journals: list[Values] = field(default_factory=list)
    plans: list[Values] = field(default_factory=list)
    """Lines of plans and settings that name them."""
    copies: list[Path] = field(default_factory=list)
    """Pages and tables written for use that name them, as far as they are still there."""
    unread: list[Path] = field(default_factory=list)
    """Files that may tell of them and can't be read."""
    people: set[str] = field(default_factory=set)
    """What others are called in the files that were read."""


def found_in_folder(folder: Path, ids: frozenset[str], names: OnlyTheirNames) -> InFolder:
    """Look through everything. `ids` are theirs in this folder's files."""
    found = InFolder()
    for path in steps("Looking through results", sorted(results(folder).glob("*.json"))):
        _look_in_results(path, ids, names, found)
    for path in steps("Looking through journals", sorted(journals(folder).glob("*.jsonl"))):
        _look_in_journal(path, ids, names, found)
    for pattern in _PLANS:
        for path in sorted(folder.glob(pattern)):
            where = path.relative_to(folder).as_posix()
            lines = lines_naming(_text(path), names)
            found.plans += [{"file": where, "line": line} for line in lines]
    found.copies += [one.path for one in copies(folder) if names.stand_in(_text(one.path))]
    return found


def _look_in_results(
    path: Path, ids: frozenset[str], names: OnlyTheirNames, found: InFolder
) -> None:
    if not _may_tell(path, ids, names):
        return
    try:
        document = read_results(path)
    except NotResultsError:
        return
    except ResultsError:
        found.unread.append(path)
        return
    found.people |= set(_others(document.people, ids))
    if (part := part_about(document, ids)) is not None:
        found.classes.append(part)


def _look_in_journal(
    path: Path, ids: frozenset[str], names: OnlyTheirNames, found: InFolder
) -> None:
    if not _may_tell(path, ids, names):
        return
    try:
        journal = read_journal(path)
        found.people |= set(_others(people_in(journal), ids))
        lines = lines_about(journal, ids, names)
    except (JournalUnreadableError, OSError, LookupError, ValueError):
        found.unread.append(path)
        return
    if lines:
        started = journal.anchors[0].wall
        found.journals.append({"journal": path.name, "started": started, "lines": list(lines)})


def _others(people: Any, ids: frozenset[str]) -> Iterator[str]:
    """The names of those who aren't the person, and weren't erased."""
    yield from (one.name for one in people if one.id not in ids and not one.id.startswith(ERASED))


def _may_tell(path: Path, ids: frozenset[str], names: OnlyTheirNames) -> bool:
    """Whether a file of JSON holds an id or a name of theirs."""
    text = _text(path)
    if "\\u" in text:
        text = _ESCAPE.sub(lambda code: chr(int(code[1], 16)), text)
    return any(f'"{one}"' in text for one in ids) or names.stand_in(text)


def _text(path: Path) -> str:
    """All of a file; empty where it can't be read."""
    try:
        return read_file(path).decode("utf-8", "replace")
    except OSError:
        return ""
