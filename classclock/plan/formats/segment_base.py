"""What every format has, and what each has to say for itself: the one place to look it up.

A format is a module beside this one and its line in `Segment` (`plan/model.py`).
"""

from abc import ABC, abstractmethod
from collections.abc import Iterator, Mapping
from typing import Annotated, ClassVar, Literal, Self

from msgspec import Struct
from pydantic import Field

from classclock.clock.cues import CueRule
from classclock.clock.span import Span
from classclock.plan.amounts import worth
from classclock.plan.file_key import FileKey
from classclock.plan.findings import Fault, Path
from classclock.plan.formats.counting import Counting
from classclock.plan.formats.cue_switches import Cues
from classclock.plan.formats.fit import Fit, shorter_lengths
from classclock.plan.lift_set import LiftSet
from classclock.plan.station import Station
from classclock.plan.value_types import CountIn, Flag, Lines, LoadChoice, Strict, Text
from classclock.plan.written_values import Table
from classclock.units.times import Milliseconds


class About(Struct, frozen=True, kw_only=True):
    """What holds for every segment of a format, written or not."""

    offered_as: str
    """What it is, where the editor offers it for a new segment."""
    begins_with: str
    """What a new plan of it begins with."""
    called: str
    """The name of a new segment, until the coach gives it one."""
    starter: str
    """The keys of a new segment, in TOML: it can be run as it stands."""
    fields: tuple[str, ...]
    """The keys that it has beside every format's, in the order in which a coach sets them."""
    keys: Mapping[str, FileKey] = {}
    """Those that no other format has, and those within its tables; `plan/keys.py` has the rest."""
    also_called: Mapping[str, str] = {}
    """What people write for a key of its own, where the word is another format's or nobody's."""
    known_by: frozenset[str] = frozenset()
    """Keys that tell the format where the plan leaves it out."""
    length_key: str | None = None
    """The key that says how long it lasts, where it is one."""
    rounds: Literal["none", "open", "set"] = "none"
    """Whether what is counted are rounds: as many as there is time for, or a set number."""
    in_steps: bool = False
    """Its clock goes by steps: they say how long it is, and the wall says which one is on."""
    minutes_can_change: bool = False
    """Whether the coach may add and take minutes while it runs."""
    cues: tuple[CueRule, ...] = ()
    """Its cues beside those that are everywhere."""
    reported: tuple[str, str]
    """What a report calls it: with its length in place of `{time}`, and without one."""

    @property
    def has_rounds(self) -> bool:
        """Such a segment is always scored, and its stations have amounts."""
        return self.rounds != "none"


class WrittenTurn(Struct, frozen=True):
    """A stretch of work or rest among several, as it is written under each other."""

    words: str
    """How long it is, and what is done if it has a name of its own: `0:45 row`, `0:45`."""
    stations: tuple[str, ...] = ()
    """The movements that are done in it, where it names any."""


class SegmentBase(Strict, ABC):
    """The keys of every format; under them what a format answers, most of it by its own keys."""

    about: ClassVar[About]

    name: Text
    """What the board and the results call this part; of two that are scored no two are the same."""
    benchmark: Text | None = None
    """One name for a piece that comes back, so that its scores are compared."""
    lines: Lines = ()
    """What the room reads while it runs."""
    notes: Lines = ()
    """For the coach, on the board."""
    caution: Lines = ()
    """What to take care of: on the board and the wall, before all else."""
    count_in: CountIn = Milliseconds(10_000)
    """How long the count-in is, before go."""
    cues: Cues = Cues.model_construct()
    """Which cues are heard and shown; each can be switched off."""
    station: tuple[Station, ...] = ()
    """What is done in a round, one movement after the other."""
    teams: Annotated[int, Field(strict=True, ge=2, le=12)] | None = None
    """How many people share a lane, and with it one key and one tally."""
    separate: Flag = False
    """Rank as-written and modified lanes apart, as-written first."""
    lift: Text | None = None
    """The lift that is trained: whose maximum the percentages are of."""
    standard: Text | None = None
    """What makes a rep of the lift count."""
    points: Lines = ()
    """What to coach of the lift."""
    sets: tuple[LiftSet, ...] = ()
    """The sets of the lift, in their order; the last one goes on beyond its end."""
    load: LoadChoice | None = None
    """The load of all sets that name none; several by name where people choose."""

    @property
    @abstractmethod
    def counting(self) -> Counting:
        """What counts, and by which rules."""

    @abstractmethod
    def spans(self, total: int | None = None) -> tuple[Span, ...]:
        """Its clock from go on, without a gap.

        `total` is its length in milliseconds where minutes were added to the plan's or taken.

        Raises:
            ValueError: the format doesn't let its length be changed.
        """

    @property
    def counts_up(self) -> bool:
        return False

    @abstractmethod
    def headline(self) -> str:
        """What a coach writes over the movements: `18-12-6`, `rounds in 16:00`, `6 x 0:45`."""

    def terms(self) -> str:
        """What stands behind it: ` for time, cap 9:00, 72 reps`, with what parts the two."""
        return ""

    def described(self) -> str:
        """The format in the words of the wall: `rounds in 16:00, 27 reps a round`."""
        return f"{self.headline()}{self.terms()}"

    def turns(self) -> tuple[WrittenTurn, ...]:
        """What is done one after the other each time, where that is not all the stations."""
        return ()

    @classmethod
    def faults(cls, values: Table, path: Path) -> Iterator[Fault]:  # noqa: ARG003  few have any
        """Find what is wrong between its own keys, in a segment as its file has it."""
        yield from ()

    def ways_shorter(self) -> tuple[Fit, ...]:
        """Every length under the planned one that makes sense, the longest first."""
        return shorter_lengths(self.spans()[-1].end)

    def fitted(self, fit: Fit) -> Self:
        """The segment with this length; one that is left out stays as it is, and is passed by.

        Raises:
            ValueError: the format has no such length, or it isn't shorter than planned.
        """
        if fit.left_out:
            return self
        key, length = self.about.length_key, fit.length
        if key is None or length is None or not 0 < length < self.spans()[-1].end:
            raise ValueError(f'"{self.name}" can\'t be made so short')
        return self.model_copy(update={key: Milliseconds(length)})

    def round_reps(self, index: int = 0) -> int:
        """What the round with this index is worth as written, the first being 0."""
        scheme = self.counting.scheme
        return sum(worth(station, None, index, scheme) for station in self.station)

    @property
    def total_reps(self) -> int | None:
        """All the work as written, where it is a set amount."""
        rounds = self.counting.rounds
        return None if rounds is None else sum(self.round_reps(index) for index in range(rounds))


def one_stretch(length: int) -> tuple[Span, ...]:
    """The clock of a format that has no steps; `length` is milliseconds."""
    return (Span("work", 0, int(length), number=1),)
