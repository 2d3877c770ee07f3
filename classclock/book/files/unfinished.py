"""Classes that were cut off and can be rejoined."""

from datetime import datetime, timedelta
from pathlib import Path

from msgspec import Struct

from classclock.book.files.held_file import in_use
from classclock.book.files.journal import (
    Journal,
    JournalTooNewError,
    JournalUnreadableError,
    read_journal,
)
from classclock.machine.whole_file import is_half

REJOINABLE = timedelta(hours=12)
"""A class older than that is history."""


class LaterJournal(Struct, frozen=True):
    """A class that only a later classclock can rejoin. `why` says so, and on which line."""

    path: Path
    why: str


def unfinished(folder: Path, now: datetime) -> tuple[Journal | LaterJournal, ...]:
    """The journals in the folder whose class was cut off today, the latest first."""
    found: list[Journal | LaterJournal] = []
    since = (now - REJOINABLE).timestamp()
    for path in sorted(folder.glob("*.jsonl"), key=_changed, reverse=True):
        if _changed(path) < since:
            break  # no line was written later, so none has to be read
        if is_half(path):
            continue  # the same class's, that was to take its journal's place
        try:
            journal = _read_where_it_goes_on(path)
        except JournalTooNewError as error:
            if error.unfinished and not in_use(path):
                found.append(LaterJournal(path, f"line {error.line}: {error.why}"))
            continue
        except (JournalUnreadableError, OSError):
            continue
        recent = now - datetime.fromisoformat(journal.last_wall) < REJOINABLE
        if recent and journal.unfinished and not in_use(journal.path):
            found.append(journal)
    return tuple(found)


def _read_where_it_goes_on(path: Path) -> Journal:
    """The journal of that name, or the one in which its class went on.

    Raises:
        JournalUnreadableError: one of them can't be read.
        OSError: one of them isn't there, as on a stick that was pulled out.
    """
    journal, passed = read_journal(path), {path}
    while journal.moved is not None and (path := Path(journal.moved.to)) not in passed:
        journal = read_journal(path)
        passed.add(path)
    return journal


def _changed(path: Path) -> float:
    try:
        return path.stat().st_mtime
    except OSError:
        return 0
