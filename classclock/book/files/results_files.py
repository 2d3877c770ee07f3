"""The results files of one class: one JSON for all, one CSV beside it for each piece."""

import json
import threading
from collections.abc import Sequence
from datetime import datetime
from operator import is_
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import UNSET

from classclock.book.files.saved_results import (
    DamagedResultsError,
    ResultsError,
    read_results,
)
from classclock.book.files.spare_room import SpareRoom
from classclock.clock.source import stamp_now
from classclock.machine.disk_faults import is_full, reason
from classclock.machine.file_names import file_safe
from classclock.machine.whole_file import write_whole
from classclock.records.class_document import results_document
from classclock.records.document import COLUMNS, PieceResults, ResultsDocument, plain_values
from classclock.tally.record import ClassRecord, RunKey
from classclock.units.csv_cells import csv_bytes

if TYPE_CHECKING:
    from classclock.records.own_bests import OwnBests


HANGS = 5.0
"""Seconds after which a writing that hasn't come back is counted as failed."""


class ResultsFiles:
    """Writes the results as often as they change, always under the same names.

    A name that another class has is left alone. Nothing is raised for the disk's sake: `fault` says
    why the last writing failed, and `saved` what is on disk, whatever was tried since.
    """

    def __init__(self, folder: Path, started: str, *, spare: SpareRoom | None = None) -> None:
        """`spare` is given up when the disk is full."""
        self.folder = folder
        self.started = started
        self.saved: tuple[Path, ...] = ()
        """The files on disk."""
        self.record: ClassRecord | None = None
        """The class as the document among them tells it."""
        self.lacks_tables = False
        """Whether a table beside that document couldn't be written."""
        self._spare = spare or SpareRoom(folder)
        self._fault = ""
        self._own_bests: OwnBests | None = None
        self._one_at_a_time = threading.Lock()
        self._begun: float | None = None

    @property
    def own_bests(self) -> "OwnBests":
        """Until the book has been read nothing is said of earlier bests."""
        if self._own_bests is None:
            from classclock.records.own_bests import OwnBests  # noqa: PLC0415  not before it is asked

            self._own_bests = OwnBests()
        return self._own_bests

    @own_bests.setter
    def own_bests(self, bests: "OwnBests") -> None:
        self._own_bests = bests

    @property
    def fault(self) -> str:
        """Why the last writing failed, in words; empty where it didn't."""
        begun = self._begun
        if begun is not None and stamp_now() - begun > HANGS:
            return "the disk doesn't answer"
        return self._fault

    @property
    def unsaved(self) -> bool:
        """Whether the last writing failed, or what it wrote was taken away."""
        if not all(path.exists() for path in self.saved):
            self.saved, self.record, self._fault = (), None, "they were taken away"
        return bool(self._fault)

    def holds(self, record: ClassRecord, run: RunKey) -> bool:
        """Whether the document on disk tells this run as the class's record does."""
        on_disk = self.record.heats(run) if self.record is not None else ()
        now = record.heats(run)
        return len(on_disk) == len(now) and all(map(is_, on_disk, now))

    def write(self, record: ClassRecord, journal: Path) -> bool:
        """Write everything as it stands now; whether that worked."""
        document = self.own_bests.with_best_before(
            results_document(record, started=self.started, journal=journal.name)
        )
        with self._one_at_a_time:
            self._begun = stamp_now()
            try:
                self._fault = self._write(document, record)
            except OSError as error:
                self._fault = reason(error)
            self._begun = None
            return not self._fault

    def _write(self, document: ResultsDocument, record: ClassRecord) -> str:
        """Write them; why not, where they are not to be."""
        path = self.path_for(document, record.plan_name)
        if self.record is None and (piece := settled_only_in(path, document)):
            return f"{piece} is settled in those on disk: settle it here to replace them"
        while True:
            try:
                write_json(path, document)
                self.record, self.saved, self.lacks_tables = record, (path,), True
                self.saved = (path, *write_tables(path, document))
                self.lacks_tables = False
            except OSError as error:
                if not is_full(error) or not self._spare.give_up():
                    raise
            else:
                return ""

    def path_for(self, document: ResultsDocument, plan_name: str) -> Path:
        """Where a document of this class goes."""
        started = datetime.fromisoformat(self.started)
        stem = f"{started:%Y-%m-%d-%H%M}-{file_safe(plan_name)}"
        return self.folder / f"{self._free_stem(stem, document.journal)}.json"

    def _free_stem(self, wanted: str, journal: str) -> str:
        """The wanted name, or with a number behind it where another class has it already."""
        stem, number = wanted, 1
        while not self._is_free(stem, journal):
            number += 1
            stem = f"{wanted}-{number}"
        return stem

    def _is_free(self, stem: str, journal: str) -> bool:
        """Whether nothing has this name, or earlier results of the class with this journal."""
        path = self.folder / f"{stem}.json"
        if path.exists():
            return _ours(path, journal)
        return not any(self.folder.glob(f"{stem}.*")) and not any(self.folder.glob(f"{stem}-*.csv"))


def settled_only_in(path: Path, document: ResultsDocument) -> str:
    """The name of a piece that is settled in the file and not in the document; empty if none is.

    So it is where a disk took the results of a class and not the end of its journal.
    """
    try:
        before = read_results(path)
    except ResultsError:
        return ""
    settled = {(one.name, one.attempt) for one in document.pieces if one.status == "settled"}
    further = (
        one.name
        for one in before.pieces
        if one.status == "settled" and (one.name, one.attempt) not in settled
    )
    return next(further, "")


def write_document(path: Path, document: ResultsDocument) -> tuple[Path, ...]:
    """Write a results document, then the CSV files of its pieces beside it; all of their paths.

    In this order, so that a CSV file without its document is never ours to write over.

    Raises:
        OSError: one of them can't be written.
    """
    write_json(path, document)
    return path, *write_tables(path, document)


def document_files(path: Path, document: ResultsDocument) -> dict[Path, bytes]:
    """The same files, as they would be written."""
    return {path: _json(document), **_tables(path, document)}


def write_json(path: Path, document: ResultsDocument) -> None:
    """Write a results document alone. Raises OSError."""
    write_whole(path, _json(document))


def write_tables(path: Path, document: ResultsDocument) -> tuple[Path, ...]:
    """Write the CSV files of the pieces beside the document; all of their paths. Raises OSError."""
    tables = _tables(path, document)
    for beside, table in tables.items():
        write_whole(beside, table)
    return tuple(tables)


def _json(document: ResultsDocument) -> bytes:
    text = json.dumps(plain_values(document), ensure_ascii=False, indent=1)
    return text.encode("utf-8", "replace") + b"\n"


def _tables(path: Path, document: ResultsDocument) -> dict[Path, bytes]:
    named = _named_pieces(document.pieces)
    return {path.with_name(f"{path.stem}-{name}.csv"): _table(piece) for name, piece in named}


def _table(piece: PieceResults) -> bytes:
    """The piece as CSV, with the columns that its document has."""
    unsaid = {
        column for column in COLUMNS for lane in piece.lanes if getattr(lane, column) is UNSET
    }
    columns = [column for column in COLUMNS if column not in unsaid]
    rows = [[getattr(lane, column) for column in columns] for lane in piece.lanes]
    return csv_bytes(columns, rows)


def _ours(path: Path, journal: str) -> bool:
    """Whether this document holds earlier results of the class with this journal."""
    try:
        return read_results(path).journal == journal
    except DamagedResultsError as error:
        return error.journal == journal
    except ResultsError:
        return False


def _named_pieces(pieces: Sequence[PieceResults]) -> list[tuple[str, PieceResults]]:
    named: dict[str, PieceResults] = {}
    for piece in pieces:
        wanted = file_safe(piece.name)
        name, number = wanted, 1
        while name in named:
            number += 1
            name = f"{wanted}-{number}"
        named[name] = piece
    return list(named.items())
