"""A club's own journals and results: which of them speak of a person, and each without them."""

import contextlib
import html
import json
import re
from collections.abc import Iterable, Iterator, Sequence
from datetime import datetime
from pathlib import Path
from typing import Any, Literal, NamedTuple

from classclock.book.erasing.raw_bytes import may_hold
from classclock.book.erasing.scrubbing import FreeText, Scrub
from classclock.book.files.event_lines import LaterEventError, event_of
from classclock.book.files.results_writing import document_files
from classclock.book.files.saved_results import LaterResultsError, ResultsError, read_results
from classclock.club.folder import journals, results
from classclock.machine.plain_file import read_file
from classclock.machine.whole_file import is_half
from classclock.units.plain_json import read_json

_ESCAPE = re.compile(r"\\u([0-9a-fA-F]{4})")
_WRITTEN = re.compile(rb'"(?:text|reason|plan_text|stop)":')
_NOTE = re.compile(rb'"note": ?"((?:[^"\\]|\\.)+)"')
Found = Literal["nowhere", "readable", "damaged", "later"]
"""Whether a file speaks of somebody, or may and can't be read: `later` by this classclock."""


def own_records(folder: Path) -> tuple[Path, ...]:
    """The journals and results of the club in this folder, and what a power cut left half."""
    there = sorted((*journals(folder).glob("*"), *results(folder).glob("*")))
    return tuple(path for path in there if path.suffix in (".json", ".jsonl") or is_half(path))


def those_naming(paths: Iterable[Path], texts: Iterable[str]) -> Iterator[Path]:
    """The files in which one of these ids or names may stand, and those that can't be opened."""
    wanted = frozenset(texts)
    return (path for path in paths if _may_hold(path, wanted))


def found_in(path: Path, scrub: Scrub) -> Found:
    """Whether a file would be another without the person."""
    if is_half(path):
        return "readable" if _may_be_in(path, scrub) else "nowhere"
    if path.suffix == ".jsonl":
        try:
            return _found_in_journal(read_file(path), scrub)
        except OSError:
            return "damaged"
    try:
        document = read_results(path)
    except LaterResultsError:
        return "later" if _may_be_in(path, scrub) else "nowhere"
    except (ResultsError, OSError):
        return "damaged" if _may_be_in(path, scrub) else "nowhere"
    return "readable" if scrub.results(document) != document else "nowhere"


def _may_be_in(path: Path, scrub: Scrub) -> bool:
    """Whether the person may stand in it, as far as a text tells that nobody can take apart."""
    try:
        return scrub.may_be_in(plain_text(path))
    except OSError:
        return True


class LookedAt(NamedTuple):
    """What one look at a file tells."""

    path: Path
    started: int
    """When its class began, in milliseconds since 1970; 0 where it doesn't say."""
    texts: tuple[FreeText, ...] = ()
    """The free texts with a name, as far as the file can be read."""
    of_another: bool = False
    """Whether somebody else of that name is recorded in it, and they aren't."""
    may_change: bool = True
    """Whether it may be another without them, as long as no lines of plans go."""


def look_at(path: Path, scrub: Scrub) -> LookedAt:
    """Read a file once for all that is asked of it before anything is decided."""
    try:
        if is_half(path):
            return LookedAt(path, 0)
        if path.suffix == ".jsonl":
            lines = [line for line in _read_lines(path) if line is not None]
            found = tuple(one for line in lines for one in scrub.texts_in_event(line))
            another = bool(found) and _of_another(_people_in(lines), scrub)
            return LookedAt(path, _began(lines), found, another)
        document = read_results(path)
    except (OSError, ResultsError):
        return LookedAt(path, 0)
    people = ((person.id, person.name) for person in document.people)
    return LookedAt(
        path,
        int(datetime.fromisoformat(document.started).timestamp() * 1000),
        tuple(scrub.texts_in_results(document)),
        _of_another(people, scrub),
        scrub.results(document) != document,
    )


def written_in(path: Path) -> Iterator[str]:
    """All that somebody wrote freely in a file, as far as it can be read."""
    with contextlib.suppress(OSError):
        raw = read_file(path)
        if path.suffix == ".jsonl":
            some = (line for line in raw.split(b"\n") if _WRITTEN.search(line))
            for fields in map(_read, some):
                said = ((fields or {}).get(key) for key in ("text", "reason", "plan_text", "stop"))
                yield from (one for one in said if isinstance(one, str))
        else:
            for note in _NOTE.findall(raw):
                yield _without_escapes(note.decode("utf-8", "replace"))


def names_in(path: Path, scrub: Scrub) -> frozenset[str]:
    """What the person is called in a file, as far as it can be read."""
    try:
        if path.suffix == ".jsonl":
            lines = (line for line in _read_lines(path) if line is not None)
            return frozenset(name for line in lines for name in scrub.names_in_event(line))
        people = read_results(path).people if not is_half(path) else ()
    except (OSError, ResultsError):
        return frozenset()
    return frozenset(person.name for person in people if person.id in scrub.ids)


def _began(lines: Sequence[dict[str, Any]]) -> int:
    """When a journal's class began, in milliseconds since 1970; 0 where it doesn't say."""
    first = lines[0] if lines else {}
    try:
        said = str(first.get("wall") or first.get("anchor", {}).get("wall"))
        return int(datetime.fromisoformat(said).timestamp() * 1000)
    except (ValueError, AttributeError):
        return 0


def tables_beside(left: Iterable[Path], scrub: Scrub) -> Iterator[Path]:
    """The CSV files of these results that name the person: nothing else would write them anew."""
    for path in left:
        stems = {one.stem for one in path.parent.glob("*.json")}
        for table in sorted(path.parent.glob("*.csv")):
            theirs = (stem for stem in stems if table.name.startswith(f"{stem}-"))
            named = scrub.named.stands_in(plain_text(table))
            if max(theirs, key=len, default="") == path.stem and named:
                yield table


def files_without(path: Path, scrub: Scrub) -> dict[Path, bytes]:
    """A readable file without the person, and the tables that belong to it; of half a file nothing.

    Raises:
        ResultsError, OSError: it was changed meanwhile, or can't be read.
    """
    if is_half(path):
        return {}
    if path.suffix == ".jsonl":
        lines, _ = _journal_lines(path.read_bytes())
        return {path: b"".join(_without(line, scrub) or line + b"\n" for line in lines)}
    return document_files(path, scrub.results(read_results(path)))


def plain_text(path: Path) -> str:
    """The file's words, without the escapes of its format.

    Raises:
        OSError: it can't be read.
    """
    raw = read_file(path).decode("utf-8", "replace")
    if path.suffix == ".html":
        return html.unescape(raw)
    if path.suffix == ".jsonl":
        return "\n".join(_without_escapes(line) for line in raw.splitlines())
    return _without_escapes(raw) if path.suffix == ".json" else raw


def _may_hold(path: Path, texts: frozenset[str]) -> bool:
    try:
        return may_hold(read_file(path), texts)
    except OSError:
        return True


def _of_another(people: Iterable[tuple[str, str]], scrub: Scrub) -> bool:
    there = dict(people)
    others = (name for ident, name in there.items() if ident not in scrub.ids)
    return not scrub.ids & there.keys() and any(map(scrub.named.is_one, others))


def _without_escapes(text: str) -> str:
    try:
        return json.dumps(read_json(text.encode()), ensure_ascii=False)
    except ValueError:
        pairs = _ESCAPE.sub(lambda code: chr(int(code[1], 16)), text)
        return pairs.encode("utf-16", "surrogatepass").decode("utf-16", "replace")


# -- journals ----------------------------------------------------------------------


def _found_in_journal(data: bytes, scrub: Scrub) -> Found:
    lines, torn = _journal_lines(data)
    texts = [_without_escapes(line.decode("utf-8", "replace")) for line in (*lines, torn)]
    naming = [line for line, text in zip(lines, texts, strict=False) if scrub.may_be_in(text)]
    if not all(_without(line, scrub) for line in naming):
        return "damaged"
    if any(map(_is_later, naming)):
        return "later"
    changed = any(_changed(line, scrub) for line in naming) or scrub.may_be_in(texts[-1])
    return "readable" if changed else "nowhere"


def _changed(line: bytes, scrub: Scrub) -> bool:
    fields = _read(line)
    return fields is not None and "anchor" not in fields and scrub.event(fields) != fields


def _read_lines(path: Path) -> Iterator[dict[str, Any] | None]:
    lines, _ = _journal_lines(read_file(path))
    return map(_read, lines)


def _people_in(lines: Iterable[dict[str, Any]]) -> Iterator[tuple[str, str]]:
    for line in lines:
        for one in (*(line.get("people") or ()), line.get("person")):
            if isinstance(one, dict):
                yield str(one.get("id")), str(one.get("name"))


def _journal_lines(data: bytes) -> tuple[list[bytes], bytes]:
    """The journal's lines, and what a power cut left of the last, which nobody reads."""
    *lines, torn = data.split(b"\n")
    if lines and not torn:
        try:
            read_json(lines[-1])
        except ValueError:
            torn = lines.pop()
    return lines, torn


def _is_later(line: bytes) -> bool:
    """Whether there may be more in it than is known here."""
    try:
        event_of(_read(line) or {})
    except LaterEventError:
        return True
    except ValueError:
        return False
    return False


def _without(line: bytes, scrub: Scrub) -> bytes:
    """A journal's line without the person; empty where it can't be read."""
    fields = _read(line)
    if fields is None:
        return b""
    try:
        kept = fields if "anchor" in fields else scrub.event(fields)
    except (AttributeError, KeyError, TypeError):
        return b""
    return json.dumps(kept, ensure_ascii=True, separators=(",", ":")).encode() + b"\n"


def _read(line: bytes) -> dict[str, Any] | None:
    try:
        read = read_json(line)
    except ValueError:
        return None
    return read if isinstance(read, dict) else None
