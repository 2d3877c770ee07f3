"""A journal that somebody else writes, read as it grows: whole lines only, each once.

It is opened, read and closed again, so that it can be put in another's place meanwhile.
"""

from pathlib import Path

from classclock.book.files.journal import (
    MAX_BYTES,
    Journal,
    JournalUnreadableError,
    journal_of,
)
from classclock.live.replaying import folded_on, replayed
from classclock.machine.plain_file import open_file
from classclock.tally.record import ClassRecord

_OPENED = 2
"""Lines from which a class is there: its anchor, and its opening."""


class GrowingJournal:
    """What it holds so far, and the record that this folds to."""

    def __init__(self, path: Path) -> None:
        self.path = path
        self.journal: Journal | None = None
        """None until the class is opened in it."""
        self.record: ClassRecord | None = None
        self._whole = b""
        self._file: tuple[int, int, int, int] | None = None

    def look(self) -> bool:
        """Take what has come; whether anything has.

        Raises:
            JournalTooNewError: a later version wrote a line of it.
            JournalUnreadableError: another can't be read.
            OSError: it can't be read, or isn't there.
            ValueError: its plan can't be read by this version, or an event makes no sense.
        """
        now = self.path.stat()
        file = now.st_dev, now.st_ino, now.st_size, now.st_mtime_ns
        if file == self._file:
            return False
        if now.st_size > MAX_BYTES:
            raise JournalUnreadableError(self.path, 1, "this file is too large for a journal")
        came = self.take(self._read())
        self._file = file
        return came

    def take(self, data: bytes) -> bool:
        """All of its bytes as they are now; whether they tell anything new.

        Raises: as `look` does.
        """
        before = self.journal if data.startswith(self._whole) else None
        if before is None and data.count(b"\n") < _OPENED:
            return False
        journal = journal_of(self.path, data, before)
        if self.journal is not None and journal.whole == self.journal.whole and before is not None:
            return False
        self.record = self._folded(journal)
        self.journal, self._whole = journal, data[: journal.whole]
        return True

    def go_on_in(self, path: Path) -> None:
        """The class has moved there, with all that it had."""
        self.path, self._file = path, None

    def _read(self) -> bytes:
        with open_file(self.path) as opened:
            return opened.read(MAX_BYTES)

    def _folded(self, journal: Journal) -> ClassRecord:
        """From where it stands, as long as what came before is the same."""
        if self.journal is None or self.record is None:
            return replayed(journal)
        known = self.journal.events
        if journal.events[: len(known)] != known:
            return replayed(journal)
        return folded_on(self.record, journal, len(known))
