"""People remembered from the results of earlier classes: their key, and what each used last."""

from collections.abc import Mapping
from datetime import date, datetime
from pathlib import Path
from string import ascii_lowercase

from msgspec import Struct, field

from classclock.book.files.any_records import MOST_CLASSES
from classclock.book.files.saved_results import ResultsError, read_results
from classclock.plan.model import Segment
from classclock.plan.station import Station
from classclock.records.class_entries import benchmark_key
from classclock.records.document import ResultsDocument
from classclock.tally.lanes import Mark
from classclock.units.spelling import fold

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
    return benchmark_key(segment.benchmark or segment.name)


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
        try:
            _remember(read_results(path), found)
        except ResultsError:
            continue
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


def _remember(document: ResultsDocument, found: dict[str, _Found]) -> None:
    """One class, older than all that were remembered before: what is known already stays."""
    day = datetime.fromisoformat(document.started).date()
    for person in document.people:
        if person.in_the_book and person.name.strip():
            key = person.key if person.key in _KEYS else ""
            first = _Found(person.id, person.name, key, day)
            found.setdefault(person.id, first).classes += 1
    for piece in document.pieces:
        called = benchmark_key(piece.benchmark or piece.name)
        for lane in piece.lanes:
            for member in lane.members:
                if member in found:
                    options = lane.remembered_options
                    found[member].modifications.setdefault(called, options)
