"""Writing down what no class made: a rename, a merge, a mark, an import, or taking one back."""

from collections.abc import Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path

from classclock.book.files.changes import (
    Change,
    Import,
    MarkSet,
    Merge,
    Rename,
    Undo,
    read_changes,
    with_more,
    write_changes,
)
from classclock.book.people_rules import for_good, standing_changes
from classclock.book.tables.book_lock import book_lock


def write_down(folder: Path, more: Sequence[Change], now: datetime) -> None:
    """Put changes at the end of the club's; the book takes them in when it next catches up.

    Raises:
        ChangesDamagedError: a line of the file can't be read.
        OSError: it can't be written.
    """
    with book_lock(folder):
        changes = with_more(read_changes(folder), more, utc(now))
        write_changes(folder, changes)


def take_back_newest(folder: Path, now: datetime) -> Change | None:
    """Take back the newest change that still counts, and give it; None where there is none.

    An erasure can't be taken back: what it forgot is gone.

    Raises:
        ChangesDamagedError: a line of the file can't be read.
        OSError: it can't be written.
    """
    with book_lock(folder):
        changes = read_changes(folder)
        standing = [line for line in standing_changes(changes.lines) if not for_good(line)]
        if not standing:
            return None
        newest = standing[-1]
        write_changes(folder, with_more(changes, [Undo(of=newest.n)], utc(now)))
    return newest


def utc(now: datetime) -> str:
    """RFC 3339 in universal time, so that changes of several rooms can be put in order."""
    return now.astimezone(UTC).isoformat(timespec="milliseconds")


def change_words(change: Change, names: Mapping[str, str]) -> str:
    """A change in a few words, for who takes it back; `names` are people's, by id."""

    def name(athlete: str) -> str:
        return names.get(athlete, athlete)

    match change:
        case Rename():
            return f"the name {change.name}, it is {name(change.athlete)} again"
        case Merge():
            return f"the merge of {name(change.gone)} into {name(change.kept)}"
        case MarkSet():
            return f"the mark {change.mark} {'on' if change.on else 'off'} {name(change.athlete)}"
        case Import():
            return f"the import of {change.file}, {len(change.scores)} scores"
        case _:
            return change.change
