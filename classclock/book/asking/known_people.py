"""People remembered from the results of earlier classes: their key, and what each used last."""

from collections.abc import Iterator, Mapping
from datetime import date, datetime
from pathlib import Path
from string import ascii_lowercase
from typing import Any

from msgspec import Struct, field

from classclock.book.files.saved_results import read_results
from classclock.plan.model import Segment, Station
from classclock.records.erased import ERASED
from classclock.tally.lanes import Mark
from classclock.units.spelling import fold

MOST_CLASSES = 300
"""So many results files are read, the newest first: about a year's classes."""
_KEYS = frozenset(ascii_lowercase)


class KnownPerson(Struct, frozen=True):
    id: str
    name: str
    key: str
    """As of the latest class."""
    classes: int = 1
    last: date = date.min
    """The day of the latest class."""
    modifications: Mapping[str, tuple[str | None, ...]] = field(default_factory=dict)
    """By piece (`piece_name`), for each station the option used last; None is as written."""
    marks: tuple[Mark, ...] = ()
    """Only the book knows them."""


def piece_name(segment: Segment) -> str:
    """What a piece is remembered by: its benchmark, or its own name."""
    return (segment.benchmark or segment.name).casefold()


def options_again(known: KnownPerson, segment: Segment) -> tuple[int, ...]:
    """The options by number that somebody used last in this piece, as far as it still offers them.

    0 is as written, as in a lane.
    """
    names = known.modifications.get(piece_name(segment), ())
    stations = zip(segment.station, names, strict=False)
    return tuple(_number_of(name, station) for station, name in stations)


def _number_of(name: str | None, station: Station) -> int:
    """The option of this name, however it is spelled; 0 where the station has none."""
    wanted = fold(name or "")
    numbered = enumerate(station.options, start=1)
    return next((number for number, one in numbered if fold(one.name) == wanted), 0)


def known_people(results: Path) -> tuple[KnownPerson, ...]:
    """Everybody in the results files of this folder, who came last first.

    A file that can't be read, or that isn't one, is passed over.
    """
    found: dict[str, _Found] = {}
    for path in sorted(results.glob("*.json"), reverse=True)[:MOST_CLASSES]:
        document = read_results(path)
        if document is not None:
            _remember(document, found)
    return tuple(person.known() for person in found.values())


class _Found(Struct):
    id: str
    name: str
    key: str
    last: date
    classes: int = 0
    modifications: dict[str, tuple[str | None, ...]] = field(default_factory=dict)

    def known(self) -> KnownPerson:
        return KnownPerson(
            self.id, self.name, self.key, self.classes, self.last, self.modifications
        )


def _remember(document: dict[str, Any], found: dict[str, _Found]) -> None:
    """One class, older than all that were remembered before: what is known already stays."""
    try:
        day = datetime.fromisoformat(document["started"]).date()
    except ValueError:
        return
    for person in _tables(document.get("people")):
        ident, name, key = (person.get(part) for part in ("id", "name", "key"))
        if isinstance(ident, str) and ident.startswith(ERASED):
            continue
        if isinstance(ident, str) and isinstance(name, str) and name.strip():
            kept = key if isinstance(key, str) and key in _KEYS else ""
            found.setdefault(ident, _Found(ident, name, kept, day)).classes += 1
    for piece in _tables(document["pieces"]):
        called = piece.get("benchmark") or piece.get("name")
        if isinstance(called, str):
            for lane in _tables(piece.get("lanes")):
                _remember_lane(called.casefold(), lane, found)


def _remember_lane(piece: str, lane: dict[str, Any], found: dict[str, _Found]) -> None:
    members, options = lane.get("members"), lane.get("own_options") or lane.get("options")
    if not isinstance(members, list) or not isinstance(options, list):
        return
    names = tuple(option if isinstance(option, str) else None for option in options)
    for member in members:
        if isinstance(member, str) and member in found:
            found[member].modifications.setdefault(piece, names)


def _tables(value: object) -> Iterator[dict[str, Any]]:
    return (
        (item for item in value if isinstance(item, dict)) if isinstance(value, list) else iter(())
    )
