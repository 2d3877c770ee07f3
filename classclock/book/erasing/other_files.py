"""What else lies in the club's folder and may name somebody: plans, drafts, and what isn't ours."""

import json
from base64 import b64decode, b64encode
from collections.abc import Callable, Collection, Iterator
from pathlib import Path
from typing import Any

from classclock.book.erasing.name_finding import NameFinder
from classclock.book.erasing.own_records import own_records, plain_text
from classclock.book.erasing.plan_without import lines_naming, plan_without
from classclock.book.erasing.scrubbing import FreeText
from classclock.book.files.changes_file import NAME as CHANGES
from classclock.book.files.copies import NAME as COPIES
from classclock.book.files.spare_room import NAME as SPARE_ROOM
from classclock.club.folder import results
from classclock.machine.plain_file import read_file
from classclock.units.plain_json import read_json

_OURS = (CHANGES, COPIES, SPARE_ROOM)
_DATABASE = ".sqlite"


def plans(folder: Path) -> tuple[Path, ...]:
    """The plans in a club's folder, and the drafts of some."""
    return tuple(sorted((*folder.glob("plans/**/*.toml"), *folder.glob("drafts/*.json"))))


def texts_in_plan(path: Path, named: NameFinder) -> Iterator[FreeText]:
    """The lines of a plan or a draft in which a name stands, as far as it can be read."""
    try:
        raw = read_file(path)
    except OSError:
        return
    texts: list[str] = []
    _each_text(_read(path, raw), texts.append)
    for text in texts:
        yield from (FreeText("plan", line) for line in lines_naming(text, named))


def plan_file_without(path: Path, named: NameFinder, goes: Collection[str]) -> bytes | None:
    """A plan or a draft without the name in these lines; None where it has none of them.

    Raises:
        OSError: it can't be read.
    """
    raw = read_file(path)
    read = _read(path, raw)

    def without(text: str) -> str:
        return plan_without(text, named, goes)

    kept = _each_text(read, without)
    if kept == read:
        return None
    text = kept if isinstance(kept, str) else json.dumps(kept, separators=(",", ":"))
    return text.encode()


def others_naming(folder: Path, named: NameFinder, known: Collection[Path]) -> Iterator[Path]:
    """Files that are neither records nor plans nor `known`, in which a name stands.

    Tables beside results are written with those; a file of any kind may be called by a name.
    """
    ours = {*own_records(folder), *plans(folder), *known}
    stems = frozenset(path.stem for path in results(folder).glob("*.json"))
    for path in sorted(folder.rglob("*")):
        if not path.is_file() or path in known or path.name in _OURS:
            continue
        if named.called_so(path.stem):
            yield path
        elif path not in ours and _DATABASE not in path.name and not _beside(path, folder, stems):
            try:
                if named.stands_in(plain_text(path)):
                    yield path
            except OSError:
                continue  # a lock that another account holds, a socket


def _beside(path: Path, folder: Path, stems: frozenset[str]) -> bool:
    """Whether it is a table of one of these results."""
    if path.suffix != ".csv" or path.parent != results(folder):
        return False
    name = path.name
    return any(name[:at] in stems for at, sign in enumerate(name) if sign == "-")


def _read(path: Path, raw: bytes) -> Any:
    if path.suffix == ".json":
        try:
            return read_json(raw)
        except ValueError:
            return raw.decode("utf-8", "replace")
    return raw.decode("utf-8", "replace")


def _each_text(value: Any, use: Callable[[str], Any]) -> Any:
    """The same value with every text in it as `use` gives it back; a draft's `data` is a plan."""
    match value:
        case str():
            return use(value)
        case {"data": str(data)}:
            others = {key: _each_text(part, use) for key, part in value.items() if key != "data"}
            return {**value, **others, "data": _in_base64(data, use)}
        case dict():
            return {key: _each_text(part, use) for key, part in value.items()}
        case list():
            return [_each_text(part, use) for part in value]
    return value


def _in_base64(data: str, use: Callable[[str], Any]) -> Any:
    try:
        text = b64decode(data, validate=True).decode()
    except ValueError:
        return use(data)
    used = use(text)
    return data if used in (None, text) else b64encode(used.encode()).decode()
