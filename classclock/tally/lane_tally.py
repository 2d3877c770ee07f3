"""What one lane has so far, as screens and results read it. Times are milliseconds of the piece."""

from msgspec import Struct
from msgspec.structs import replace

from classclock.tally.counting.pace import Pace
from classclock.tally.events import Corrected
from classclock.tally.lanes import Lane
from classclock.tally.signs import SIGNS, Doubt
from classclock.units.loads import Load
from classclock.units.times import show_time


class Round(Struct, frozen=True):
    """A full round. `reps` is what it was worth when it was done."""

    reps: int
    at: int | None
    """When it was completed; None where it was filled in."""
    split: int | None
    """How long it took; None where that isn't known."""
    filled: bool = False
    doubtful: bool = False


class Attempt(Struct, frozen=True):
    """A load made or missed. `load` is None where it was the planned one and nobody planned it."""

    load: Load | None
    made: bool
    at: int
    number: int
    """Which set it belongs to, from 1."""
    doubtful: bool = False


ODD_REPS_CUT = "odd reps cut"


class Doubted(Struct, frozen=True):
    """Something to be looked at before the score is settled."""

    doubt: Doubt
    about: str
    """`round 5`, `825 kg`, or that odd reps were cut."""
    words: str
    """As the results say it."""
    round: int | None = None
    """Which one, from 1, where it is a round."""


class LaneTally(Struct, frozen=True):
    """Everything known of a lane at one moment."""

    lane: Lane
    """With the options now in force."""
    joined: int = 0
    rounds: tuple[Round, ...] = ()
    odd: int | None = None
    """Odd reps of the round in progress; None is unknown."""
    odd_floor: int = 0
    """Odd reps that are known at least, where stations are tapped."""
    position: int = 0
    """How many stations of the round in progress are done, as far as is known."""
    station: int | None = None
    """Which of the plan's stations is on, from 0; None where it can't be told."""
    station_since: int | None = None
    paces: tuple[tuple[int, Pace], ...] = ()
    """Station and pace of every station that was timed."""
    station_doubtful: bool = False
    intervals: tuple[int | None, ...] = ()
    let_unknown: tuple[int, ...] = ()
    """Intervals of which the coach was asked, and let them stand unknown."""
    attempts: tuple[Attempt, ...] = ()
    reps: int = 0
    """In a piece scored by reps: all of them so far."""
    finish: int | None = None
    stopped: int | None = None
    cut: str = ""
    """In words, where the round got smaller and cut the odd reps: to be asked again."""
    remarks: tuple[str, ...] = ()
    """Of entries that count no more, why."""
    asks_missed: bool = False
    correction: Corrected | None = None
    option_changed: int | None = None
    entries: tuple[int, ...] = ()
    """The numbers of the entries that stand, the newest last."""
    uncounted: tuple[int, ...] = ()
    """Those among them that count nothing: too late, or after the finish."""

    @property
    def total_reps(self) -> int:
        """All reps that are known. The kinds of piece don't mix, so the rest adds nothing."""
        known = self.odd if self.odd is not None else self.odd_floor
        rounds = sum(done.reps for done in self.rounds)
        return rounds + known + sum(n or 0 for n in self.intervals) + self.reps

    @property
    def round_since(self) -> int | None:
        """When the round in progress began; None where that isn't known."""
        return self.rounds[-1].at if self.rounds else self.joined

    @property
    def heaviest(self) -> Load | None:
        """The heaviest load made."""
        if self.correction is not None and self.correction.load is not None:
            return self.correction.load
        made = [a.load for a in self.attempts if a.made and a.load is not None]
        return max(made, key=lambda load: load.kg, default=None)

    @property
    def load_in_doubt(self) -> int | None:
        """Which of the attempts is asked about first, from 0."""
        return next((at for at, tried in enumerate(self.attempts) if tried.doubtful), None)

    @property
    def out(self) -> bool:
        """Whether the lane has finished or stopped."""
        return self.finish is not None or self.stopped is not None

    @property
    def nothing_done(self) -> bool:
        tallied = self.rounds or self.attempts or self.total_reps
        return not tallied and self.correction is None

    @property
    def corrected(self) -> str | None:
        """The reason of the correction, if there was one."""
        return self.correction.reason if self.correction is not None else None

    @property
    def modified(self) -> bool:
        return self.lane.modified

    @property
    def late(self) -> bool:
        return self.lane.late

    @property
    def doubted(self) -> tuple[Doubted, ...]:
        """What should be looked at before the score is settled."""
        rounds = [_doubted_round(n, done) for n, done in enumerate(self.rounds, 1) if done.doubtful]
        heavy = [
            Doubted("load", str(tried.load), f"{tried.load} {SIGNS['load'].flag}")
            for tried in self.attempts
            if tried.doubtful
        ]
        less = [Doubted("less", ODD_REPS_CUT, self.cut)] if self.cut else []
        less += [Doubted("less", "a call", remark) for remark in self.remarks]
        return (*sorted(rounds, key=lambda one: one.doubt == "filled in"), *heavy, *less)

    @property
    def doubts(self) -> tuple[str, ...]:
        """The same in words alone."""
        return tuple(one.words for one in self.doubted)

    def settled(self) -> "LaneTally":
        """Nothing is in doubt any more, and odd reps that nobody gave count as none."""
        return replace(
            self,
            rounds=tuple(replace(done, doubtful=False) for done in self.rounds),
            attempts=tuple(replace(tried, doubtful=False) for tried in self.attempts),
            odd=self.odd if self.odd is not None else self.odd_floor,
            station_doubtful=False,
            asks_missed=False,
            cut="",
            remarks=(),
        )


def _doubted_round(number: int, done: Round) -> Doubted:
    about = f"round {number}"
    if done.filled or done.split is None:
        return Doubted("filled in", about, f"{about} {SIGNS['filled in'].flag}", number)
    words = f"{about} in {show_time(done.split)} {SIGNS['fast'].flag}"
    return Doubted("fast", about, words, number)
