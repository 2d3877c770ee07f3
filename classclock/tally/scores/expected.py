"""What somebody is expected to do in a piece that hasn't begun: an earlier pace, carried on.

Work takes a time that grows as a power of it, t = q w^k with k = 1.06 (Riegel, American Scientist
69 (1981) 285, for separate efforts in running: borrowed here). An earlier effort gives its q, the
pace; several give their middle one. Where the efforts were at other pieces that hold the same
movements, each station has a pace of its own, q_s: nobody timed the stations of a round, so the
pace of the whole piece stands for each movement in it, and rounds with w_s reps at each
station and w in all take w^(k-1) (q_1 w_1 + q_2 w_2 + ...). Within a round work goes evenly.

Work is reps, or rounds where they count no reps; times are milliseconds. Nothing here is recorded:
these are estimates.
"""

from collections.abc import Sequence
from math import ceil

from msgspec import Struct

from classclock.tally.counting.work import Work
from classclock.tally.scores.on_for import ENDURANCE, RoundsAndReps

_MOST_ROUNDS = 2_000
"""More than anybody does; a pace out of all reason must not keep us counting."""
_TINY = 1e-9
"""Even paces come out a hair beside the whole number that they are."""


class Expected(Struct, frozen=True):
    rounds: int
    odd: int
    """Reps of the round that the end would cut off."""
    total: int
    """All the work: in reps, or in rounds where they count none."""
    finish: int | None = None
    """Where the work is a set amount: when it would be done, if that is by the end."""

    @property
    def score(self) -> str:
        """`7+12`."""
        return f"{self.rounds}+{self.odd}"


def pace(effort: RoundsAndReps) -> float:
    """The q of one effort: so many milliseconds, and the work done in them.

    Raises:
        ValueError: no time, or no work.
    """
    at, work = effort
    if at <= 0 or work <= 0:
        raise ValueError("an effort takes time and does work")
    return float(at / work**ENDURANCE)


def middle_pace(efforts: Sequence[RoundsAndReps]) -> float:
    """The middle of these efforts' paces: one more that is faster than it never makes it slower.

    Raises:
        ValueError: there are none.
    """
    if not efforts:
        raise ValueError("no efforts, no pace")
    paces = sorted(map(pace, efforts))
    half = len(paces) // 2
    return paces[half] if len(paces) % 2 else (paces[half - 1] + paces[half]) / 2


def counts_reps(work: Work) -> bool:
    """Whether the rounds count reps; otherwise the work is measured in rounds."""
    return any(work.round_reps(index) for index in range(work.piece.rounds or 1))


def expected(work: Work, paces: Sequence[float], end: int) -> Expected:
    """What is done by the end, or by the cap, of a piece, in milliseconds.

    `paces` has each station's, in the order of the plan.
    """
    reps = counts_reps(work)
    rounds, last = 0, 0.0
    done = [0] * len(paces)
    while work.piece.rounds is None or rounds < work.piece.rounds:
        before = sum(done)
        if reps:
            _add_round(work, done, rounds)
        else:
            done[0] += 1
        at = _time(done, paces)
        if at > end * (1 + _TINY) or rounds == _MOST_ROUNDS:
            size = sum(done) - before
            part = (end - last) / (at - last) if at > last else 0.0
            odd = min(size - 1, int(size * part + _TINY)) if reps and size else 0
            return Expected(rounds, odd, before + odd)
        rounds, last = rounds + 1, at
    return Expected(rounds, 0, sum(done), min(end, ceil(last - _TINY)))


def _add_round(work: Work, done: list[int], index: int) -> None:
    """Add what each of the plan's stations counts in this round."""
    for position, worth in enumerate(work.station_worths(index)):
        done[work.plan_station(position)] += worth


def _time(done: Sequence[int], paces: Sequence[float]) -> float:
    whole = sum(done)
    if not whole:
        return 0.0
    alike = sum(each * station for each, station in zip(paces, done, strict=True))
    return float(whole ** (ENDURANCE - 1) * alike)
