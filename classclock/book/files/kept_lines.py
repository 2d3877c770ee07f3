"""Lines that are to be on disk, in a file that may be taken away, on a disk that may refuse.

What isn't in the file is written when it can be, in a new file if this one was taken away or is
spoilt. `fault` says why the last try failed. Nothing raises for the disk's sake.
"""

import contextlib
import threading
from pathlib import Path

from classclock.book.files.held_file import HeldFile, JournalInUseError, written_beside
from classclock.book.files.journal_lines import JournalLines
from classclock.book.files.spare_room import SpareRoom
from classclock.book.files.work_when_asked import WorkWhenAsked
from classclock.machine.disk_faults import is_full, reason
from classclock.machine.replacing import take_away
from classclock.tally.events import Event

SLOW = 0.25
"""Seconds after which a sync that hasn't come back is slow."""
HANGS = 5.0
"""Seconds after which it is counted as failed."""


class KeptLines:
    def __init__(self, path: Path, spare: SpareRoom) -> None:
        """`spare` is given up when the disk is full."""
        self.path = path
        self.lines = JournalLines()
        self._spare = spare
        self._file: HeldFile | None = None
        self._ours = False
        """Whether the file of that name, if there is one, has these lines."""
        self._spoilt = False
        """Whether the file may lack what was written to it."""
        self._write_fault = self._sync_fault = ""
        self._changing = threading.RLock()
        """Held while the file is written to, or becomes another one."""
        self._syncing = WorkWhenAsked(self._sync)

    @property
    def fault(self) -> str:
        """Why something isn't on disk that was tried, in words; empty where nothing failed."""
        if self.lines.all_synced:
            return ""
        hangs = "the disk doesn't answer" if self._syncing.takes > HANGS else ""
        return self._write_fault or self._sync_fault or hangs

    @property
    def slow(self) -> bool:
        """Whether the disk takes long to confirm what was written."""
        return self._syncing.takes > SLOW

    def go_on(self, file: HeldFile | None, lines: JournalLines) -> None:
        """With the file that has these lines already; None: it can't be written to so far."""
        self.lines, self._file, self._ours = lines, file, True
        try:
            if file is not None:
                file.cut(lines.written)
        except OSError:
            self._spoilt = True

    def add(self, line: bytes, event: Event | None = None) -> None:
        """One more line; None: it tells no event."""
        with self._changing:
            self.lines.add(line, event)
        self.try_again()

    def try_again(self) -> None:
        """See that the file is still there, and write what it lacks; it is synced soon after."""
        with self._changing:
            self._see_to_the_file()
            self._write_the_rest()
        if not self.lines.all_synced:
            self._syncing.ask()

    def settle(self, seconds: float) -> None:
        """Wait until all is synced that can be, but no longer than this."""
        self._syncing.wait(seconds)

    def move_to(self, path: Path, last: bytes) -> None:
        """Write all to another place, see it on disk, and go on there; `last` stays here.

        Raises:
            OSError: the other place can't be written to either. It goes on where it was.
        """
        with self._changing:
            file = HeldFile.made(path)
            try:
                rest = data = bytes(self.lines.data)
                while rest:
                    rest = rest[file.write(rest) :]
                file.sync()
            except OSError:
                file.close()
                take_away(path)
                raise
            self._say_last(last)
            self._let_go()
            self.path, self._file, self._ours, self._spoilt = path, file, True, False
            self.lines.written = self.lines.synced = len(data)
            self._write_fault = self._sync_fault = ""

    def end(self, last: bytes = b"") -> None:
        """Let the file go, with this `last` line in it where it lacks some."""
        self._syncing.end()
        with self._changing:
            if last:
                self._say_last(last)
            self._let_go()

    # -- inside ------------------------------------------------------------------------

    def _see_to_the_file(self) -> None:
        if self._file is not None and not self._file.in_place:
            # Its folder was removed or renamed: what stands in it would be found by nobody.
            self._ours = not self._file.is_open
            self._let_go()
        if self._file is None:
            self._open()

    def _open(self) -> None:
        try:
            if self._ours:
                self._file = HeldFile.again(self.path)
                self._file.cut(self.lines.written)
            else:
                self.lines.lost()
                self._file = HeldFile.made(self.path)
                self._ours = True
        except (FileExistsError, JournalInUseError):
            taken = self.path if self.path.parent.is_dir() else self.path.parent
            self._write_fault = f"another file is called {taken.name}"
        except OSError as error:
            self._let_go()
            self._write_fault = reason(error)

    def _let_go(self) -> None:
        if self._file is not None:
            self._file.close()
            self._file = None

    def _write_the_rest(self) -> None:
        lines = self.lines
        while self._file is not None and not lines.all_written:
            try:
                # A disk that is nearly full takes a part: only what it took is done with.
                lines.written += self._file.write(bytes(lines.data[lines.written :]))
            except OSError as error:
                if is_full(error) and self._spare.give_up():
                    continue
                self._write_fault = reason(error)
                self._spoilt |= not is_full(error)
                return
        if self._file is not None:
            self._write_fault = ""

    def _say_last(self, line: bytes) -> None:
        """In a file in which nothing comes after it, unless the disk refuses that, too."""
        if self._file is None:
            return
        with contextlib.suppress(OSError):
            self._spare.give_the_last()
            self._file.cut(self.lines.whole)  # a part of a line tells nothing, and takes room
            self._file.write(line)
            self._file.sync()

    # -- in a thread of its own ----------------------------------------------------------

    def _sync(self) -> None:
        with self._changing:
            file, written = self._file, self.lines.written
            data = bytes(self.lines.data) if self._spoilt else b""
        if file is None:
            return
        try:
            if data:
                self._write_anew(file, data)
                written = len(data)
            file.sync()
        except OSError as error:
            if self._file is file:  # one that was taken away meanwhile failed at nothing
                self._spoilt, self._sync_fault = True, reason(error)
                if is_full(error) and self._spare.give_up():
                    self._syncing.ask()
            return
        with self._changing:
            if self._file is file:
                self.lines.synced = max(self.lines.synced, written)
                self._sync_fault = ""
                self._write_the_rest()
                if self.lines.written > self.lines.synced:
                    self._syncing.ask()

    def _write_anew(self, spoilt: HeldFile, data: bytes) -> None:
        sound = written_beside(self.path, data)
        with self._changing:
            try:
                spoilt.replace(sound)
            except OSError:
                take_away(sound)
                raise
            self._spoilt, self.lines.written = False, len(data)
