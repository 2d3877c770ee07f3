"""The results files of one class: one JSON for all, one CSV beside it for each piece."""

import threading
from operator import is_
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.files.spare_room import SpareRoom
from classclock.clock.source import stamp_now
from classclock.machine.disk_faults import is_full, reason
from classclock.tally.record import ClassRecord, RunKey

if TYPE_CHECKING:
    from classclock.records.document import ResultsDocument
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
        from classclock.records.class_document import results_document  # noqa: PLC0415  once there are some

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

    def _write(self, document: "ResultsDocument", record: ClassRecord) -> str:
        """Write them; why not, where they are not to be."""
        from classclock.book.files.results_writing import (  # noqa: PLC0415  as above
            path_for,
            settled_only_in,
            write_json,
            write_tables,
        )

        path = path_for(document, record.plan_name, self.folder)
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
