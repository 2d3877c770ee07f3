"""Reading from the book what the cap fit rests on: earlier results, with their pieces' stations.

The book knows the options somebody used, not the movements: those stand in the plan that the
class's journal keeps. Where that is gone a result tells of its own benchmark only.
"""

import json
from collections.abc import Collection, Iterator, Mapping, Sequence
from pathlib import Path
from typing import Any

from msgspec import Struct
from sqlalchemy import Connection, Row, or_, select

from classclock.book.files.changes_file import ChangesDamagedError
from classclock.book.files.class_plans import plan_in
from classclock.book.files.whole_changes_file import read_changes
from classclock.book.people_ids import entry_said, said_in
from classclock.book.tables.applying import athletes_now
from classclock.book.tables.book_error import BookError
from classclock.book.tables.keeping import caught_up
from classclock.book.tables.opening import OpensBook, asking_room
from classclock.book.tables.queries import result_of
from classclock.book.tables.schema import results
from classclock.club import folder as club_folder
from classclock.club.movements import read_library
from classclock.plan.model import Plan, Segment
from classclock.plan.movements.starter_library import starter_library
from classclock.planning.cap_fit import Basis, Names, Past, StationDone, results_tell, stations_of
from classclock.records.class_entries import benchmark_key
from classclock.records.written_terms import NOT_SAID
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.units.spelling import fold

YEAR = 365 * 24 * 60 * 60 * 1000
"""Milliseconds: results on other pieces count so long."""
_MOST = 24
"""Results on other pieces that are looked at for each athlete, the latest."""


class FitQuestion(Struct, frozen=True):
    """Whose results are wanted, on which pieces, and from before when."""

    people: Collection[str]
    """Their ids, as the class knows them."""
    plan: Plan
    began: int
    """Milliseconds since 1970."""

    @property
    def told(self) -> bool:
        """Whether anything can be told of anybody."""
        return bool(self.people) and any(map(results_tell, self.plan.segment))

    @property
    def benchmarks(self) -> frozenset[str]:
        """Of the pieces of which something can be told."""
        pieces = (one for one in self.plan.segment if results_tell(one))
        return frozenset(benchmark_key(one.benchmark) for one in pieces) - {""}


def basis_for(folder: Path, asked: FitQuestion, opened: OpensBook = caught_up) -> Basis:
    """What the club's book says of them; nothing where it can't be asked or nothing is to be told.

    Loads sqlalchemy, and takes its time: for a thread.
    """
    if not asked.told:
        return Basis()
    try:
        with opened(folder) as book, book.reading() as connection:
            return read_basis(connection, folder, asked)
    except (BookError, ChangesDamagedError, OSError):
        return Basis()  # whoever asks the book for anything else says what is wrong


def read_basis(connection: Connection, folder: Path, asked: FitQuestion) -> Basis:
    """The same of a book that is open; nothing where nothing is to be told.

    Raises: as `read_past` does.
    """
    if not asked.told:
        return Basis()
    library = read_library(folder / "movements.toml")[0] or starter_library()

    def name_of(written: str) -> str:
        known = library.find(written)
        return fold(written) if known is None else known.name

    return Basis(read_past(connection, folder, asked, name_of), name_of)


def read_past(
    connection: Connection, folder: Path, asked: FitQuestion, name_of: Names
) -> Mapping[str, Sequence[Past]]:
    """Everybody's earlier results that can tell something of a piece in the plan, by their id.

    Raises:
        ChangesDamagedError: a line of the changes can't be read.
        OSError: the folder can't be read.
    """
    room = asking_room(connection)
    athletes = athletes_now(connection, asked.people)
    benchmarks = asked.benchmarks
    reading = _Reading(folder, name_of)
    found: dict[str, list[Past]] = {}
    entries = {entry_said(room, athlete) for athlete in athletes.values()}
    for row in _rows(connection, entries, asked):
        have = found.setdefault(said_in(room, row.athlete), [])
        if row.benchmark in benchmarks or len(have) < _MOST:
            have.append(Past(result_of(room, row), reading.stations(row)))
    return {person: tuple(found.get(athlete, ())) for person, athlete in athletes.items()}


def _rows(connection: Connection, of: Collection[str], asked: FitQuestion) -> Iterator[Row[Any]]:
    """Their results in rounds or for time, the latest first."""
    lately = results.c.moment >= asked.began - YEAR
    question = (
        select(results)
        .where(results.c.athlete.in_(of), results.c.moment < asked.began)
        .where(or_(results.c.benchmark.in_(asked.benchmarks), lately))
        .where(results.c.kind.in_(("rounds", "time")), results.c.why_not == "")
        .where(results.c.team == 1)
        .order_by(results.c.moment.desc(), results.c.class_key, results.c.piece)
    )
    yield from connection.execute(question)


class _Reading:
    """Finds the stations of results; each class's plan is looked up once."""

    def __init__(self, folder: Path, name_of: Names) -> None:
        self._journals, self._name_of = club_folder.journals(folder), name_of
        self._room = f"{read_changes(folder).room}/"
        self._segments: dict[tuple[str, str], Piece | None] = {}

    def stations(self, row: Row[Any]) -> tuple[StationDone, ...]:
        key = (row.class_key, row.name)
        if key not in self._segments:
            self._segments[key] = self._piece(*key)
        piece = self._segments[key]
        names = json.loads(row.options)
        if piece is None or len(names) != len(piece.stations):
            return ()
        options = _numbers(piece.segment, names)
        if options is None:
            return ()
        loads = _loads(piece, options, row.loads)
        return stations_of(piece, options, loads, self._name_of)

    def _piece(self, class_key: str, name: str) -> Piece | None:
        journal = class_key.removeprefix(self._room)
        if journal == class_key or Path(journal).name != journal:
            return None  # another room's class, or an import
        plan = plan_in(self._journals / journal)
        found = [one for one in plan.segment if one.name == name] if plan else []
        return Piece.of(found[0], "kg") if len(found) == 1 else None


def _numbers(segment: Segment, names: Sequence[str | None]) -> tuple[int, ...] | None:
    """The options by number; None where the plan has none of that name."""
    numbers = []
    for station, name in zip(segment.station, names, strict=True):
        offered = [None, *(option.name for option in station.options)]
        if name not in offered:
            return None
        numbers.append(offered.index(name))
    return tuple(numbers)


def _loads(piece: Piece, options: Sequence[int], written: str) -> tuple[str, ...]:
    """What was used at each station: the loads that were said, one by one where one is due."""
    lane = Lane("", "", "", (), tuple(options))
    due = [bool(piece.station_load(lane, place)) for place in range(len(piece.stations))]
    said = written.split(" / ") if written else []
    if written == NOT_SAID or len(said) != sum(due):
        return tuple(NOT_SAID if one else "" for one in due)
    each = iter(said)
    return tuple(next(each) if one else "" for one in due)
