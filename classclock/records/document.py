"""The results of a class as its file holds them: one model for whoever writes or reads them.

A field that files once lacked is unsaid (`UNSET`) where a file lacks it, and left out again when
that file is written anew: an old file stays what it was, and says no more than it knew.
"""

from typing import Annotated, Literal, TypeVar

from msgspec import UNSET, Meta, Struct, UnsetType, to_builtins

from classclock.records.erased import ERASED
from classclock.tally.effort.effort_scale import HARDEST
from classclock.tally.scores.lane_score import Status

VERSION = 5
"""Of the files that are written now; those without a version are of the first.

Raised with every column or field that comes: an older classclock would lose it.
"""

Int32 = Annotated[int, Meta(ge=-(2**31), le=2**31 - 1)]
"""A whole number that every database keeps."""
Effort = Annotated[int, Meta(ge=0, le=HARDEST)]
Kilograms = Int32 | Annotated[float, Meta(ge=-(2**31), le=2**31)]
Known = TypeVar("Known")


class PersonInClass(Struct, frozen=True, gc=False):
    id: str
    name: str
    """As they are shown."""
    key: str
    visitor: bool | UnsetType = UNSET
    """True of who has no name, and isn't in the book; else unsaid."""
    left_after: str | UnsetType = UNSET
    """The piece after which they left, by its name; empty is before the first. Unsaid: they stayed,
    or the file is an older one."""
    effort: Effort | UnsetType = UNSET
    """How hard the hour was, in their own word, 0 to 10; unsaid where they didn't say."""
    here_s: Int32 | UnsetType = UNSET
    """How long the class lasted for them, from its first start; unsaid where nothing was started,
    or the file is an older one."""

    @property
    def in_the_book(self) -> bool:
        return not self.visitor and not self.id.startswith(ERASED)


class AttemptMade(Struct, frozen=True, gc=False):
    """A load tried, whether or not it was made."""

    set: Int32
    """From 1."""
    load: str | None
    """As it was entered, with its unit."""
    load_kg: Kilograms | None
    made: bool


class Columns(Struct, frozen=True, kw_only=True, gc=False):
    """What a piece's table says of a lane, in the order of its columns.

    What comes new stands after these, and is unsaid in older files:
    `steps: Int32 | UnsetType | None = UNSET`.
    """

    rank: Int32 | None
    athlete: str
    """The display name, or those of a team with a plus between."""
    score: str
    """As a person reads it: `7+12`, `8:31`, `112 reps`, `85 kg`."""
    rounds: Int32 | None
    reps: Int32 | None
    """The odd ones."""
    total_reps: Int32 | None
    time_s: Int32 | None
    load_kg: Kilograms | None
    modification: str
    """The options in force; empty is as written."""
    status: Status
    best_before: str | None
    note: str


COLUMNS = Columns.__struct_fields__
"""The columns of a piece's CSV, in order; the JSON has them under the same names."""


class LaneResults(Columns, frozen=True, kw_only=True, gc=False):
    """One lane of a piece. What each field means stands at `LaneScore`."""

    key: str
    members: tuple[str, ...]
    heat: Int32
    late: bool
    options: tuple[str | None, ...]
    own_options: tuple[str | None, ...] | UnsetType | None = UNSET
    start_station: Int32
    splits: tuple[Int32 | None, ...]
    intervals: tuple[Int32 | None, ...]
    attempts: tuple[AttemptMade, ...]
    flags: tuple[str, ...]
    loads: tuple[str, ...] | UnsetType = UNSET
    round_reps: tuple[Int32, ...] | UnsetType = UNSET
    option_changed_s: Int32 | UnsetType | None = UNSET
    portion: str | UnsetType = UNSET
    """Unsaid where it was the whole piece."""
    partners: tuple[str, ...] | UnsetType = UNSET
    """Unsaid where nobody shared the bar too."""

    @property
    def remembered_options(self) -> tuple[str | None, ...]:
        """For each station what its athletes use by their own choice."""
        return known(self.own_options, None) or self.options


class PieceResults(Struct, frozen=True, kw_only=True, gc=False):
    name: str
    format: str
    benchmark: str | None
    lift: str | UnsetType | None = UNSET
    sets: tuple[Int32, ...] | UnsetType = UNSET
    """How many reps each set has."""
    length_s: Int32 | UnsetType | None = UNSET
    planned_s: Int32 | UnsetType = UNSET
    """How long it was planned, said only where it was made shorter for the clock."""
    caution: tuple[str, ...] | UnsetType = UNSET
    attempt: Int32
    status: Literal["settled", "provisional"]
    lanes: tuple[LaneResults, ...]


class ResultsDocument(Struct, frozen=True, kw_only=True, gc=False):
    version: Annotated[int, Meta(ge=1)] | UnsetType = UNSET
    title: str
    started: str
    """When the class was opened, RFC 3339 with offset."""
    journal: str
    """The file name of its journal, which tells it from the club's other classes."""
    people: tuple[PersonInClass, ...]
    pieces: tuple[PieceResults, ...]


def known(value: Known | UnsetType, otherwise: Known) -> Known:
    """What a file says, or else what holds for files that don't say it."""
    return otherwise if value is UNSET else value


def plain_values(document: object) -> dict[str, object]:
    """Of a document or a part of it: what JSON takes, without what is unsaid."""
    values: dict[str, object] = to_builtins(document)
    return values
