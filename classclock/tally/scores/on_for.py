"""What a lane is on for: its own pace carried on to the cap.

Work done follows a power law of time, t2 = t1 (w2 / w1)^k (Riegel, American Scientist 69 (1981)
285, for separate efforts of 3.5 to 230 min: here it is borrowed for the rounds of one effort, and
too hopeful for someone who keeps fading). Work is reps, or rounds where they count no reps; times
are milliseconds of the piece. Nothing here is recorded: these are estimates.
"""

from collections.abc import Sequence
from itertools import pairwise
from math import log

from msgspec import Struct

from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece

ENDURANCE = 1.06
"""Riegel's exponent for running."""
LEAST, MOST = 1.0, 1.2
ENOUGH_TO_FIT = 4
ENOUGH_TO_TELL = 2

RoundsAndReps = tuple[int, int]
"""Elapsed milliseconds, and the work done by then."""


class Earlier(Struct, frozen=True):
    """The lane's own best run of this benchmark: its marks, and all its work by the cap."""

    marks: tuple[RoundsAndReps, ...]
    total: int


class OnFor(Struct, frozen=True):
    """What the lane is on for, in whole rounds; never below what is done."""

    rounds: int
    reps: int
    """All the work, in reps."""
    finish: int | None = None
    """Where the work is a set amount: when it will be done, if that is by the cap."""
    ahead: int | None = None
    """Against the own best at this moment, in reps: more is ahead, 0 level, less behind."""


def exponent(marks: Sequence[RoundsAndReps]) -> float:
    """How time grows with work: Riegel's, or with four or more splits their least-squares fit.

    The fit is on the logarithms, and kept within 1.00 to 1.20.
    """
    usable = [(log(work), log(at)) for at, work in marks if at > 0 and work > 0]
    if len(usable) < ENOUGH_TO_FIT:
        return ENDURANCE
    return min(MOST, max(LEAST, fitted(usable)))


def fitted(points: Sequence[tuple[float, float]]) -> float:
    """The slope of the straight line through these points, by least squares."""
    mean_x = sum(x for x, _ in points) / len(points)
    mean_y = sum(y for _, y in points) / len(points)
    spread = sum((x - mean_x) ** 2 for x, _ in points)
    if spread == 0:
        return ENDURANCE
    return sum((x - mean_x) * (y - mean_y) for x, y in points) / spread


def time_for(work: float, mark: RoundsAndReps, k: float = ENDURANCE) -> float:
    """When this much work is done, by the power law through one mark."""
    at, done = mark
    return float(at * (work / done) ** k)


def work_by(time: int, mark: RoundsAndReps, k: float = ENDURANCE) -> float:
    """How much work is done by this time, by the power law through one mark."""
    at, done = mark
    return float(done * (time / at) ** (1 / k))


def earlier_work(earlier: Earlier, at: int, cap: int) -> float:
    """What the earlier run had done by this time, evenly between its marks."""
    points = _curve(earlier, cap)
    for (t1, w1), (t2, w2) in pairwise(points):
        if at <= t2:
            return w1 + (w2 - w1) * (at - t1) / (t2 - t1)
    return earlier.total


def earlier_time(earlier: Earlier, work: int, cap: int) -> float:
    """When the earlier run had done this much work."""
    points = _curve(earlier, cap)
    for (t1, w1), (t2, w2) in pairwise(points):
        if work <= w2 and w2 > w1:
            return t1 + (t2 - t1) * (work - w1) / (w2 - w1)
    return points[-1][0]


def _curve(earlier: Earlier, cap: int) -> list[RoundsAndReps]:
    curve: list[RoundsAndReps] = [(0, 0)]
    last = (cap, earlier.total)
    for mark in (*sorted(earlier.marks), last):
        if mark[0] > curve[-1][0] and mark[1] >= curve[-1][1]:
            curve.append(mark)
    return curve


def marks_of(tally: LaneTally) -> tuple[RoundsAndReps, ...]:
    """The moments of the lane's counted rounds, with all the work done by each.

    Without those before the lane joined, or before the one before: they tell no pace.
    """
    in_rounds = not any(done.reps for done in tally.rounds)
    work, latest, marks = 0, tally.joined, []
    for done in tally.rounds:
        work += 1 if in_rounds else done.reps
        if done.at is not None and done.at >= max(1, latest) and work > 0:
            latest = done.at
            marks.append((done.at, work))
    return tuple(marks)


def on_for(
    piece: Piece, tally: LaneTally, *, elapsed: int, cap: int, earlier: Earlier | None = None
) -> OnFor | None:
    """What the lane is on for at this moment, from its second split on.

    None before that, and where the piece isn't counted in rounds or the lane is out.
    """
    marks = marks_of(tally)
    if piece.counts_by != "rounds" or tally.out or len(marks) < ENOUGH_TO_TELL:
        return None
    if elapsed >= cap:
        lead = None if earlier is None else tally.total_reps - earlier.total
        return OnFor(len(tally.rounds), tally.total_reps, ahead=lead)
    lane_work = _LaneWork(piece, tally)
    lead = None if earlier is None else _ahead(lane_work, marks, elapsed, cap, earlier)
    whole = lane_work.total
    if whole is not None:
        finish = _finish(marks, whole, cap, earlier)
        if finish <= cap:
            return OnFor(piece.rounds or 0, whole, max(round(finish), elapsed), lead)
    reps = max(int(_by_the_cap(marks, cap, earlier) + _TINY), lane_work.done)
    if whole is not None:
        reps = min(reps, whole - 1)
    if (enough := lane_work.enough) is not None:
        reps = min(reps, max(enough, lane_work.done))
    return OnFor(lane_work.rounds_within(reps), reps, ahead=lead)


_TINY = 1e-9
"""Even splits come out a hair below the whole number that they are."""


class _LaneWork(Struct, frozen=True):
    """The lane's work as the marks measure it: in reps, or in rounds where there are none."""

    piece: Piece
    tally: LaneTally

    @property
    def in_rounds(self) -> bool:
        return not any(done.reps for done in self.tally.rounds)

    @property
    def done(self) -> int:
        return len(self.tally.rounds) if self.in_rounds else self.tally.total_reps

    @property
    def total(self) -> int | None:
        if self.piece.rounds is None or self.in_rounds:
            return self.piece.rounds
        return self.up_to(self.piece.rounds)

    @property
    def enough(self) -> int | None:
        """The work that was agreed where there is no set amount; None where nothing was."""
        portion = self.tally.lane.portion
        if not portion or portion.rounds is None:
            return None
        return portion.rounds if self.in_rounds else self.up_to(portion.rounds)

    def up_to(self, rounds: int) -> int:
        """All work when so many rounds are done, those done already at the size they had."""
        done = sum(self.size(index) for index in range(min(rounds, len(self.tally.rounds))))
        return done + sum(self.size(index) for index in range(len(self.tally.rounds), rounds))

    def size(self, index: int) -> int:
        if self.in_rounds:
            return 1
        if index < len(self.tally.rounds):
            return self.tally.rounds[index].reps
        return Work(self.piece, self.tally.lane).round_reps(index)

    def rounds_within(self, work: int) -> int:
        """How many rounds so much work is, at least those that are done."""
        rounds = len(self.tally.rounds)
        left = work - self.up_to(rounds)
        if Work(self.piece, self.tally.lane).is_even:
            size = self.size(rounds)
            return rounds + max(0, left // size) if size else rounds
        while (size := self.size(rounds)) and size <= left:
            left -= size
            rounds += 1
        return rounds


def _by_the_cap(marks: Sequence[RoundsAndReps], cap: int, earlier: Earlier | None) -> float:
    at, work = marks[-1]
    if earlier is not None and (then := earlier_work(earlier, at, cap)) > 0:
        return work * earlier.total / then
    return work_by(cap, marks[-1], exponent(marks))


def _finish(marks: Sequence[RoundsAndReps], whole: int, cap: int, earlier: Earlier | None) -> float:
    at, work = marks[-1]
    if earlier is not None and (then := earlier_time(earlier, work, cap)) > 0:
        return at * earlier_time(earlier, whole, cap) / then
    return time_for(whole, marks[-1], exponent(marks))


def _ahead(
    lane_work: _LaneWork, marks: Sequence[RoundsAndReps], elapsed: int, cap: int, earlier: Earlier
) -> int:
    """Ahead by the last counted round, and no further than the round in progress allows."""
    at, work = marks[-1]
    then = work - earlier_work(earlier, at, cap)
    bound = work + lane_work.size(len(lane_work.tally.rounds)) - earlier_work(earlier, elapsed, cap)
    return int((min(then, bound) + _TINY) // 1)
