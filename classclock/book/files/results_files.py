"""The results files of one class: one JSON for all, one CSV beside it for each piece."""

import json
import threading
from collections.abc import Sequence
from datetime import datetime
from pathlib import Path
from typing import TYPE_CHECKING

from msgspec import UNSET

from classclock.book.files.saved_results import (
    DamagedResultsError,
    ResultsError,
    read_results,
)
from classclock.machine.file_names import file_safe
from classclock.machine.whole_file import write_whole
from classclock.records.class_document import results_document
from classclock.records.document import COLUMNS, PieceResults, ResultsDocument, plain_values
from classclock.tally.record import ClassRecord
from classclock.units.csv_cells import csv_bytes

if TYPE_CHECKING:
    from classclock.records.own_bests import OwnBests


class ResultsFiles:
    """Writes the results as often as they change, always under the same names.

    A name that another class has is left alone. `trouble` says in the coach's words why the last
    writing failed; nothing is raised for the disk's sake.
    """

    def __init__(self, folder: Path, started: str) -> None:
        self.folder = folder
        self.trouble: str | None = None
        self.saved: tuple[Path, ...] = ()
        """The files as last written."""
        self._own_bests: OwnBests | None = None
        self.started = started
        self._one_at_a_time = threading.Lock()

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
    def unsaved(self) -> bool:
        """Whether the last writing failed, or what it wrote was taken away."""
        return self.trouble is not None or not all(path.exists() for path in self.saved)

    def write(self, record: ClassRecord, journal: Path) -> bool:
        """Write everything as it stands now; whether that worked."""
        document = self.own_bests.with_best_before(
            results_document(record, started=self.started, journal=journal.name)
        )
        with self._one_at_a_time:
            try:
                self.saved = self._write(document, record.plan_name)
            except OSError as error:
                why = error.strerror or type(error).__name__
                self.trouble = (
                    f"the results can't be saved in {self.folder} ({why}): they are kept, "
                    "and it is tried again"
                )
                return False
            self.trouble = None
            return True

    def _write(self, document: ResultsDocument, plan_name: str) -> tuple[Path, ...]:
        started = datetime.fromisoformat(self.started)
        stem = self._free_stem(f"{started:%Y-%m-%d-%H%M}-{file_safe(plan_name)}", document.journal)
        return write_document(self.folder / f"{stem}.json", document)

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


def write_document(path: Path, document: ResultsDocument) -> tuple[Path, ...]:
    """Write a results document, then the CSV files of its pieces beside it; all of their paths.

    In this order, so that a CSV file without its document is never ours to write over.

    Raises:
        OSError: one of them can't be written.
    """
    text = json.dumps(plain_values(document), ensure_ascii=False, indent=1)
    write_whole(path, text.encode("utf-8", "replace") + b"\n")
    written = [path]
    for name, piece in _named_pieces(document.pieces):
        beside = path.with_name(f"{path.stem}-{name}.csv")
        write_whole(beside, _table(piece))
        written.append(beside)
    return tuple(written)


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
