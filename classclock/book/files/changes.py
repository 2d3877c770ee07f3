"""`changes.jsonl`: what no class made. Imports, names, merges, marks, goals, erasures; one a line.

With the results files it is the truth that the book is made from. The first line names the room,
which tells its classes from other rooms' on a shared server.
"""

import hashlib
import json
import os
from collections.abc import Callable, Iterable
from pathlib import Path

from msgspec import UNSET, Struct, UnsetType, convert, field
from msgspec.json import Decoder, encode
from msgspec.structs import replace

from classclock.book.files.change_line import ChangeLine
from classclock.book.files.changes_file import NAME, ChangesDamagedError
from classclock.book.files.goal_lines import GoalDropped, GoalSet, ImportedGoal
from classclock.machine.plain_file import open_file, read_file
from classclock.machine.whole_file import write_whole
from classclock.records.document import Effort
from classclock.records.result import ScoreKind, day_moment
from classclock.tally.lanes import Mark
from classclock.units.plain_json import read_json


class Rename(ChangeLine, frozen=True, tag="rename"):
    athlete: str
    name: str


class Merge(ChangeLine, frozen=True, tag="merge"):
    """Two entries were one person: what was `gone`'s is `kept`'s."""

    gone: str
    kept: str
    name: str = ""
    """What they are called from then on; empty where it wasn't said: as they last came."""


class MarkSet(ChangeLine, frozen=True, tag="mark"):
    athlete: str
    mark: Mark
    on: bool


class EffortGiven(ChangeLine, frozen=True, tag="effort"):
    """How hard a class was for somebody, said or put right after it."""

    journal: str
    """The class, as its results name it."""
    athlete: str
    """As that class recorded them."""
    effort: Effort | None
    """0 to 10; None: it isn't kept any more."""


class ImportedScore(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """One score from a club's older records; `worth` is reckoned as `result.py` does."""

    athlete: str
    name: str
    benchmark: str
    """As the sheet has it; it is compared by `benchmark_key`."""
    score: str
    kind: ScoreKind
    worth: int | None
    day: str
    modification: str = ""
    loads: str = ""
    work: str = ""
    # What follows another club's book says of a score, and no old sheet.
    moment: int | UnsetType = UNSET
    """Milliseconds since 1970; unsaid, the day's midnight."""
    piece: str | UnsetType = UNSET
    """What the piece was called; unsaid, as the benchmark."""
    why_not: str | UnsetType = UNSET
    """Why it can't be a best; unsaid where it can."""
    team: int | UnsetType = UNSET
    total_reps: int | UnsetType = UNSET
    rank: int | UnsetType = UNSET
    status: str | UnsetType = UNSET
    note: str | UnsetType = UNSET


class ImportedVisit(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """Somebody came to a class of another club's book; `moment` is when it began."""

    athlete: str
    name: str
    key: str
    day: str
    moment: int
    effort: Effort | UnsetType = UNSET
    """How hard it was for them, 0 to 10."""
    here_s: int | UnsetType = UNSET
    """How long the class lasted for them, in seconds."""


class ImportedLift(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A load tried in a class of another club's book; `worth` is reckoned as `result.py` does."""

    athlete: str
    name: str
    lift: str
    reps: int | None
    load: str
    worth: int
    made: bool
    settled: bool
    day: str
    moment: int


class ImportedMark(Struct, frozen=True, kw_only=True, forbid_unknown_fields=True):
    """A mark that somebody has in another club's book."""

    athlete: str
    name: str
    mark: Mark


ImportedRecord = ImportedScore | ImportedVisit | ImportedLift | ImportedMark | ImportedGoal


class Import(ChangeLine, frozen=True, tag="import"):
    file: str
    scores: tuple[ImportedScore, ...]
    visits: tuple[ImportedVisit, ...] | UnsetType = UNSET
    lifts: tuple[ImportedLift, ...] | UnsetType = UNSET
    marks: tuple[ImportedMark, ...] | UnsetType = UNSET
    goals: tuple[ImportedGoal, ...] | UnsetType = UNSET

    @property
    def records(self) -> tuple[ImportedRecord, ...]:
        """All that came, each with whose it is."""
        more = (self.visits, self.lifts, self.marks, self.goals)
        return (*self.scores, *(one for each in more if each is not UNSET for one in each))

    def kept(self, keep: Callable[[ImportedRecord], bool]) -> "Import | None":
        """The import with only what is to be kept; the same where that is all, None for nothing."""
        left = replace(
            self,
            scores=tuple(filter(keep, self.scores)),
            visits=UNSET if self.visits is UNSET else tuple(filter(keep, self.visits)),
            lifts=UNSET if self.lifts is UNSET else tuple(filter(keep, self.lifts)),
            marks=UNSET if self.marks is UNSET else tuple(filter(keep, self.marks)),
            goals=UNSET if self.goals is UNSET else tuple(filter(keep, self.goals)),
        )
        if len(left.records) == len(self.records):
            return self
        return left if left.records else None


class Erasure(ChangeLine, frozen=True, tag="erase", omit_defaults=True):
    """Somebody asked to be erased. Ids are kept as digests only, so that none can come back.

    In a book that rooms share it is an order to the others.
    """

    salt: str
    digests: tuple[str, ...]
    before: int
    """Classes that started earlier are meant; milliseconds since 1970."""
    names: tuple[str, ...] = ()
    """Digests of their names, for rooms whose pages name them; none once all rooms are done."""


class Carried(ChangeLine, frozen=True, tag="carried"):
    """This room has carried out another room's order to erase somebody."""

    room: str
    of: int
    """The order's number in that room's changes."""
    left: tuple[str, ...] = ()
    """Files of this club's folder to be looked at by hand."""


class Undo(ChangeLine, frozen=True, tag="undo"):
    """The change numbered `of` is to count no more."""

    of: int


Change = (
    Rename
    | Merge
    | MarkSet
    | EffortGiven
    | GoalSet
    | GoalDropped
    | Import
    | Erasure
    | Carried
    | Undo
)
_CHANGE: Decoder[Change] = Decoder(Change)


class Changes(Struct, frozen=True):
    """The file as read."""

    room: str
    lines: tuple[Change, ...] = field(default=())

    @property
    def next_number(self) -> int:
        return max((line.n for line in self.lines), default=0) + 1


def read_changes(folder: Path) -> Changes:
    """Read the club's changes; a folder without them gets a file with a room of its own.

    A torn last line, as after a power cut, is left out.

    Raises:
        ChangesDamagedError: a line within can't be read.
        OSError: the file can't be read or made.
    """
    path = folder / NAME
    try:
        first, *lines = read_file(path).split(b"\n")
    except FileNotFoundError:
        changes = Changes(os.urandom(8).hex())
        write_changes(folder, changes)
        return changes
    room, read = _room(path, first), []
    for number, line in enumerate(lines[:-1], start=2):
        try:
            read.append(convert(read_json(line), Change))
        except (ValueError, KeyError, TypeError) as error:
            raise _damaged(path, number, error) from None
    return Changes(room, tuple(read))


def _room(path: Path, first: bytes) -> str:
    try:
        room = str(read_json(first)["room"])
    except (ValueError, KeyError, TypeError) as error:
        raise _damaged(path, 1, error) from None
    if not room or "/" in room:
        raise ChangesDamagedError(f"{path}:1: the room's name is missing: put it back from a copy")
    return room


def _damaged(path: Path, number: int, error: Exception) -> ChangesDamagedError:
    why = str(error).splitlines()[0]
    return ChangesDamagedError(
        f"{path}:{number}: this line can't be read ({why}): put the file back from a copy"
    )


def changes_if_any(folder: Path) -> Changes:
    """The changes for who only asks: none where the file is missing or can't be read.

    The folder is left as it is: `read_changes` would begin a file. The room is then without a name.
    """
    try:
        return read_changes(folder) if (folder / NAME).exists() else Changes("")
    except (ChangesDamagedError, OSError):
        return Changes("")


def room_of(folder: Path) -> str:
    """The room's name; a folder without changes gets a file with a room of its own.

    Raises: as `read_changes` does.
    """
    try:
        with open_file(folder / NAME) as opened:
            return _room(folder / NAME, opened.readline())
    except FileNotFoundError:
        return read_changes(folder).room


def changes_digest(folder: Path) -> str:
    """What tells whether the file is as it was; empty where there is none.

    Raises:
        OSError: it can't be read.
    """
    try:
        return hashlib.sha256(read_file(folder / NAME)).hexdigest()
    except FileNotFoundError:
        return ""


def score_moment(score: ImportedScore) -> int:
    """When it was made, in milliseconds since 1970: an old sheet knows the day alone."""
    return day_moment(score.day) if score.moment is UNSET else score.moment


def read_change(line: str) -> Change:
    return _CHANGE.decode(line)


class _ImportForRules(Struct):
    """Who is who and works towards what; the rest of an import's line is read over."""

    n: int = 0
    at: str = ""
    marks: tuple[ImportedMark, ...] | UnsetType = UNSET
    goals: tuple[ImportedGoal, ...] | UnsetType = UNSET


_IMPORT_FOR_RULES = Decoder(_ImportForRules)
_IS_IMPORT = '{"change":"import"'


def read_change_for_rules(line: str) -> Change:
    """The same, but of an import, which may have years of scores, only `_ImportForRules`."""
    if not line.startswith(_IS_IMPORT):
        return read_change(line)
    read = _IMPORT_FOR_RULES.decode(line)
    return Import(n=read.n, at=read.at, file="", scores=(), marks=read.marks, goals=read.goals)


def write_changes(folder: Path, changes: Changes) -> None:
    """Write the whole file anew, for this account alone.

    Raises:
        OSError: it can't be written.
    """
    lines = [json.dumps({"room": changes.room}).encode()]
    lines += [encode(line) for line in changes.lines]
    write_whole(folder / NAME, b"".join(line + b"\n" for line in lines))


def with_more(changes: Changes, more: Iterable[Change], at: str) -> Changes:
    """The changes with these at their end, numbered, made at this moment (RFC 3339)."""
    lines = list(changes.lines)
    number = changes.next_number
    for line in more:
        lines.append(replace(line, n=number, at=at))
        number += 1
    return Changes(changes.room, tuple(lines))
