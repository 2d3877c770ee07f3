"""What no class made, each a line of `changes.jsonl`: imports, names, marks, goals, erasures.

With the results files they are the truth that the book is made from.
"""

from collections.abc import Iterable

from msgspec import UNSET, Struct, UnsetType, field
from msgspec.json import Decoder
from msgspec.structs import replace

from classclock.book.files.change_line import ChangeLine
from classclock.book.files.goal_lines import GoalDropped, GoalSet, ImportedGoal
from classclock.book.files.import_lines import Import, ImportedMark
from classclock.records.document import Effort
from classclock.tally.lanes import Mark


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


def with_more(changes: Changes, more: Iterable[Change], at: str) -> Changes:
    """The changes with these at their end, numbered, made at this moment (RFC 3339)."""
    lines = list(changes.lines)
    number = changes.next_number
    for line in more:
        lines.append(replace(line, n=number, at=at))
        number += 1
    return Changes(changes.room, tuple(lines))
