"""Writing down what no class made: a name, a merge, a mark, a goal, an import, or the way back."""

from collections.abc import Collection, Mapping, Sequence
from datetime import UTC, datetime
from pathlib import Path

from classclock.book.files.changes import (
    Carried,
    Change,
    Changes,
    EffortGiven,
    Erasure,
    MarkSet,
    Merge,
    Rename,
    Undo,
    with_more,
)
from classclock.book.files.goal_lines import GoalDropped, GoalSet
from classclock.book.files.import_lines import Import
from classclock.book.files.whole_changes_file import read_changes, write_changes
from classclock.book.people_rules import for_good, standing_changes
from classclock.book.tables.book_lock import book_lock


def write_down(folder: Path, more: Sequence[Change], now: datetime) -> tuple[Change, ...]:
    """Put changes at the end of the club's; as they stand there.

    The book takes them in when it next catches up; `entering.py` sees to it at once.

    Raises:
        ChangesDamagedError: a line of the file can't be read.
        OSError: it can't be written.
    """
    with book_lock(folder):
        before = read_changes(folder)
        after = with_more(before, more, utc(now))
        write_changes(folder, after)
    return after.lines[len(before.lines) :]


def strike(folder: Path, numbers: Collection[int]) -> None:
    """Take out what was written down a moment ago, as if it had never been.

    Raises: as `write_down` does.
    """
    with book_lock(folder):
        changes = read_changes(folder)
        kept = tuple(line for line in changes.lines if line.n not in numbers)
        write_changes(folder, Changes(changes.room, kept))


class NoSuchChangeError(Exception):
    """That change can't be taken back; `str` says why, and what to do."""


def take_back(folder: Path, now: datetime, number: int | None = None) -> tuple[Change, Change]:
    """Take back the change of this number, else the newest that still counts.

    An erasure can't be taken back: what it forgot is gone.

    Returns:
        That change, and the line that takes it back.

    Raises:
        NoSuchChangeError: there is no such change, or it doesn't count any more.
        ChangesDamagedError: a line of the file can't be read.
        OSError: it can't be written.
    """
    with book_lock(folder):
        changes = read_changes(folder)
        meant = _newest(changes) if number is None else _numbered(changes, number)
        after = with_more(changes, [Undo(of=meant.n)], utc(now))
        write_changes(folder, after)
    return meant, after.lines[-1]


def _newest(changes: Changes) -> Change:
    standing = standing_changes(changes.lines)
    meant = next((line for line in reversed(standing) if not for_good(line)), None)
    if meant is None:
        raise NoSuchChangeError("there is no change to take back; an erasure can't be")
    return meant


def _numbered(changes: Changes, number: int) -> Change:
    standing = {line.n: line for line in standing_changes(changes.lines)}
    meant = standing.get(number)
    if meant is not None and for_good(meant):
        raise NoSuchChangeError("an erasure can't be taken back: what it forgot is gone")
    if meant is not None:
        return meant
    gone = any(isinstance(line, Undo) and line.of == number for line in changes.lines)
    what = f"change {number} is taken back already" if gone else f"there is no change {number}"
    raise NoSuchChangeError(f"{what}: classclock book changes lists them")


def utc(now: datetime) -> str:
    """RFC 3339 in universal time, so that changes of several rooms can be put in order."""
    return now.astimezone(UTC).isoformat(timespec="milliseconds")


def class_of(journal: str) -> str:
    """A class by its journal, which begins with day and time: `the class of 2026-11-24`."""
    return f"the class of {journal[:10]}"


def change_words(change: Change, names: Mapping[str, str]) -> str:
    """A change in a few words; `names` are people's, by id."""

    def name(athlete: str) -> str:
        return names.get(athlete, athlete)

    match change:
        case Rename():
            return f"the name {change.name}"
        case Merge():
            return f"the merge of {name(change.gone)} into {name(change.kept)}"
        case MarkSet():
            return f"the mark {change.mark} {'on' if change.on else 'off'} {name(change.athlete)}"
        case EffortGiven():
            return _effort_words(change, name(change.athlete))
        case GoalSet() | GoalDropped():
            return _goal_words(change, name(change.athlete))
        case Import():
            number = len(change.scores)
            return f"the import of {change.file}, {number} score{'' if number == 1 else 's'}"
        case Erasure():
            return "somebody was erased, for good"
        case Carried():
            return "somebody was erased, as another room ordered"
        case _:
            return change.change


def _effort_words(change: EffortGiven, name: str) -> str:
    whose = f"how hard {class_of(change.journal)} was for {name}"
    return f"{whose}, dropped" if change.effort is None else f"{whose}: {change.effort}"


def _goal_words(change: GoalSet | GoalDropped, name: str) -> str:
    if isinstance(change, GoalDropped):
        return f"the goal on {change.benchmark} of {name}, dropped"
    return f"the goal {change.words} on {change.benchmark} for {name}"
