"""What a club's changes have about one person, those too that were taken back."""

from collections.abc import Collection, Iterable, Iterator
from typing import Any, assert_never

from msgspec import Struct

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
)
from classclock.book.files.goal_lines import GoalDropped, GoalSet, ImportedGoal
from classclock.book.files.import_lines import (
    Import,
    ImportedLift,
    ImportedMark,
    ImportedRecord,
    ImportedScore,
    ImportedVisit,
)
from classclock.book.people_ids import entry_said
from classclock.book.people_rules import digest
from classclock.records.document import known


class ChangeAbout(Struct, frozen=True):
    """One change, as far as it is about the person."""

    line: Change
    words: str
    records: tuple[ImportedRecord, ...]
    """Of an import those that are theirs."""
    taken_back: bool


def changes_about(rooms: Iterable[Changes], entries: Collection[str]) -> Iterator[ChangeAbout]:
    """What concerns somebody with these entries (`ROOM/ID`), room by room as it was made."""
    for room in rooms:
        taken_back = {line.of for line in room.lines if isinstance(line, Undo)}
        numbers: set[int] = set()
        for line in room.lines:
            records = _records(line, room.room, entries)
            if not records and not _about(line, room.room, entries, numbers):
                continue
            numbers.add(line.n)
            yield ChangeAbout(line, _words(line), records, line.n in taken_back)


def names_in(line: Change) -> Iterator[tuple[str, str]]:
    """Whom a change names: each as it says them, and their name."""
    match line:
        case Rename():
            yield line.athlete, line.name
        case Merge():
            yield line.kept, line.name
        case Import():
            yield from ((record.athlete, record.name) for record in line.records)
        case MarkSet() | EffortGiven() | GoalSet() | GoalDropped() | Erasure() | Carried() | Undo():
            pass
        case _:
            assert_never(line)


def _records(line: Change, room: str, entries: Collection[str]) -> tuple[ImportedRecord, ...]:
    if not isinstance(line, Import):
        return ()
    return tuple(one for one in line.records if entry_said(room, one.athlete) in entries)


def _about(line: Change, room: str, entries: Collection[str], numbers: Collection[int]) -> bool:
    match line:
        case Rename() | MarkSet() | EffortGiven() | GoalSet() | GoalDropped():
            return entry_said(room, line.athlete) in entries
        case Merge():
            return bool({entry_said(room, one) for one in (line.gone, line.kept)} & {*entries})
        case Undo():
            return line.of in numbers
        case Erasure():
            return any(digest(line.salt, entry) in line.digests for entry in entries)
        case Import() | Carried():
            return False
        case _:
            assert_never(line)


def _words(line: Change) -> str:
    """What was changed; whose it is stands beside it."""
    match line:
        case Rename():
            return f"the name is {line.name}"
        case Merge():
            return "two entries are one person" + (f", called {line.name}" if line.name else "")
        case MarkSet():
            return f"the mark {line.mark} is {'set' if line.on else 'taken off'}"
        case EffortGiven():
            return _effort_words(line)
        case GoalSet() | GoalDropped():
            return _goal_words(line)
        case Import():
            return f"scores from {line.file}" if line.scores else f"records from {line.file}"
        case Erasure():
            return "everything until then was erased"
        case Carried():
            return "everything until then was erased, as another room had ordered"
        case Undo():
            return f"number {line.of} was taken back"
        case _:
            assert_never(line)


def _effort_words(line: EffortGiven) -> str:
    which = f"the class of {line.journal[:10]}"
    if line.effort is None:
        return f"how hard {which} was isn't kept any more"
    return f"{which} was {line.effort} of 10"


def _goal_words(line: GoalSet | GoalDropped) -> str:
    if isinstance(line, GoalDropped):
        return f"the goal on {line.benchmark} is dropped"
    return f"the goal on {line.benchmark} is {line.words}"


def imported_values(one: ChangeAbout) -> Iterator[dict[str, Any]]:
    """The rows of an import that are theirs."""
    if isinstance(one.line, Import):
        for record in one.records:
            said = _said(record)
            rest = {key: "" for key in _SAID if key not in said}
            yield {
                "file": one.line.file,
                **{key: {**said, **rest}[key] for key in _SAID},
                "taken_back": int(one.taken_back),
            }


_SAID = ("benchmark", "score", "date", "modification", "load", "work")


def _said(record: ImportedRecord) -> dict[str, str]:
    """What an import says of them, in the columns of scores."""
    match record:
        case ImportedScore():
            return {
                "benchmark": record.benchmark,
                "score": record.score,
                "date": record.day,
                "modification": record.modification,
                "load": record.loads,
                "work": record.work,
            }
        case ImportedVisit():
            return {"score": "came", "date": record.day}
        case ImportedLift():
            made = "made" if record.made else "missed"
            return {
                "benchmark": record.lift,
                "score": made,
                "date": record.day,
                "load": record.load,
            }
        case ImportedMark():
            return {"score": f"marked: {record.mark}"}
        case ImportedGoal():
            return {
                "benchmark": record.benchmark,
                "score": f"goal: {record.score}",
                "date": record.since,
                "modification": known(record.modification, ""),
                "load": known(record.loads, ""),
                "work": known(record.work, ""),
            }
        case _:
            assert_never(record)
