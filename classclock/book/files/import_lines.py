"""What an import brought, as `changes.jsonl` keeps it: one line, whatever came in it."""

from collections.abc import Callable

from msgspec import UNSET, Struct, UnsetType
from msgspec.structs import replace

from classclock.book.files.change_line import ChangeLine
from classclock.book.files.goal_lines import ImportedGoal
from classclock.records.document import Effort
from classclock.records.result import ScoreKind, day_moment
from classclock.tally.lanes import Mark


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


def score_moment(score: ImportedScore) -> int:
    """When it was made, in milliseconds since 1970: an old sheet knows the day alone."""
    return day_moment(score.day) if score.moment is UNSET else score.moment
