"""Finding in a room's own files whom an order means, which says it in salted digests only."""

import json
import re
from collections.abc import Iterable, Iterator
from itertools import chain
from pathlib import Path

from classclock.book.files.changes import Changes, Erasure, Merge, Rename
from classclock.book.files.import_lines import Import
from classclock.book.people_ids import entry_of, entry_said
from classclock.book.people_rules import digest
from classclock.machine.plain_file import read_file
from classclock.units.names import name_key

_IDS = re.compile(rb'"(?:id|lane|person_id)": ?("(?:[^"\\]|\\.)*")')
_BETWEEN = re.compile(r"[\s<>\"\u201c\u201d,;:()=|\\/]+")
_WORDS = re.compile(r"\w+")
_ENDS = ".!?'\u2019[]{}*_#-"
_LONGEST = 4
"""Words that a name has at most, to be found in text."""


def ids_meant(order: Erasure, own: Changes, records: Iterable[Path]) -> frozenset[str]:
    """The ids of this room, in its records and changes, that an order means."""
    ids = {ident for path in records for ident in _ids_in(path)}
    for line in own.lines:
        if isinstance(line, Import):
            ids |= {one.athlete for one in line.records}
        else:
            ids |= {str(getattr(line, key, "")) for key in ("athlete", "gone", "kept")}
    meant = set(order.digests)
    entries = {one: entry_said(own.room, one) for one in ids if one}
    return frozenset(
        one
        for one, entry in entries.items()
        if entry == entry_of(own.room, one) and digest(order.salt, entry) in meant
    )


def names_meant(order: Erasure, own: Changes, texts: Iterable[str]) -> frozenset[str]:
    """The names that an order means, as far as they stand in changes or in these texts."""
    meant = set(order.names)
    tried: set[str] = set()
    found: set[str] = set()
    for name in chain(_names_in(own), _in_each_line(texts)):
        if name not in tried:
            tried.add(name)
            if digest(order.salt, name_key(name)) in meant:
                found.add(name)
    return frozenset(found)


def _ids_in(path: Path) -> set[str]:
    try:
        raw = read_file(path)
    except OSError:
        return set()
    found = set()
    for quoted in set(_IDS.findall(raw)):
        try:
            found.add(str(json.loads(quoted)))
        except ValueError:
            continue
    return found


def _names_in(own: Changes) -> Iterator[str]:
    for line in own.lines:
        match line:
            case Import():
                yield from (one.name for one in line.records)
                yield from _WORDS.findall(line.file.replace("_", " "))
            case Rename() | Merge():
                yield line.name
            case _:
                pass


def _in_each_line(texts: Iterable[str]) -> Iterator[str]:
    """Plans say the same lines again and again: each is looked at once."""
    done: set[str] = set()
    for text in texts:
        for line in text.splitlines():
            if line not in done:
                done.add(line)
                yield from _candidates(line)


def _candidates(text: str) -> Iterator[str]:
    """All that might be a name: one to four words that stand beside each other."""
    for found in set(_WORDS.findall(text)):
        yield str(found)
    whole = _BETWEEN.split(text)
    for words in (whole, [word.strip(_ENDS) for word in whole]):
        for size in range(1, _LONGEST + 1):
            for first in range(len(words) - size + 1):
                yield " ".join(words[first : first + size])
