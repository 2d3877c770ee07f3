"""One lane's score: what it says, what it is ranked by, and what is still to be asked."""

from decimal import Decimal
from typing import assert_never

from classclock.plan.amounts import rep_words
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.signs import SIGNS
from classclock.units.times import show_time

UNKNOWN = SIGNS["not given"].sign

RankKey = tuple[Decimal, ...]
"""Lower is better, item by item."""


def whole_seconds(ms: int) -> int:
    """A result in seconds: up to the next whole one unless it is whole already.

    As World Athletics' technical rules have it for hand times outside the stadium: 2:09:44.3 is
    2:09:45. In whole milliseconds, since floats would round 300.00000000000006 up.
    """
    return -(-ms // 1000)


def rounds_decide(piece: Piece, tally: LaneTally) -> bool:
    """Whether the work counts no reps at all, so that rounds are all there is to compare."""
    if tally.total_reps:
        return False
    return Work(piece, tally.lane).round_reps(0) == 0


def odd_reps(tally: LaneTally, *, settled: bool) -> int | None:
    """Odd reps as they are known; once settled, what nobody gave counts as none."""
    return tally.odd if tally.odd is not None or not settled else tally.odd_floor


def interval_result(piece: Piece, tally: LaneTally) -> int | None:
    """The reps by the plan's rule; None where they can't be told yet."""
    if tally.correction is not None:
        return tally.correction.reps
    known = [reps for reps in tally.intervals if reps is not None]
    match piece.interval_rule:
        case "lowest":
            return min(known) if len(known) == len(tally.intervals) else None
        case "best":
            return max(known, default=None)
        case "total" | None:
            return sum(known)
        case _:
            assert_never(piece.interval_rule)


def missing_intervals(piece: Piece, tally: LaneTally) -> tuple[int, ...]:
    """The numbers of the intervals that nobody gave, from 1."""
    if piece.counts_by != "intervals" or tally.correction is not None:
        return ()
    return tuple(n for n, reps in enumerate(tally.intervals, start=1) if reps is None)


def score_text(piece: Piece, tally: LaneTally, *, settled: bool) -> str:
    """The score as a person reads it; a question mark stands for what nobody gave."""
    odd = odd_reps(tally, settled=settled)
    match piece.counts_by:
        case "nothing":
            return ""
        case "rounds" if tally.finish is not None:
            return show_time(whole_seconds(tally.finish) * 1000)
        case "rounds" if piece.can_finish:
            return _reps(tally.total_reps, unsure=odd is None)
        case "rounds":
            return f"{len(tally.rounds)}+{UNKNOWN if odd is None else odd}"
        case "reps":
            return rep_words(tally.reps)
        case "intervals":
            result = interval_result(piece, tally)
            unsure = not settled and missing_intervals(piece, tally)
            return UNKNOWN if result is None else _reps(result, unsure=bool(unsure))
        case "load":
            return "none made" if tally.heaviest is None else str(tally.heaviest)


def _reps(reps: int, *, unsure: bool) -> str:
    return f"{reps}+{UNKNOWN} reps" if unsure else rep_words(reps)


def rank_key(piece: Piece, tally: LaneTally) -> RankKey | None:
    """What the lane is ranked by; None has no rank."""
    if tally.stopped is not None:
        return None
    match piece.counts_by:
        case "rounds" if tally.finish is not None:
            return _lower_first(0, whole_seconds(tally.finish))
        case "rounds":
            done = len(tally.rounds) if rounds_decide(piece, tally) else tally.total_reps
            return _lower_first(1, -done, *_tie_break(piece, tally))
        case "reps":
            return _lower_first(-tally.reps)
        case "intervals":
            result = interval_result(piece, tally)
            return None if result is None else _lower_first(-result)
        case "load":
            return None if tally.heaviest is None else (-tally.heaviest.kg,)
        case "nothing":
            return None


def _lower_first(*items: int) -> RankKey:
    return tuple(Decimal(item) for item in items)


def _tie_break(piece: Piece, tally: LaneTally) -> tuple[int, ...]:
    """The earlier completion of the last full round first, in whole seconds like any result."""
    if not piece.tie_break:
        return ()
    last = tally.round_since if tally.rounds else 0
    return (1, 0) if last is None else (0, whole_seconds(last))


def whole_second_splits(tally: LaneTally) -> tuple[int | None, ...]:
    """Splits in whole seconds between moments rounded as results are: their sum is the finish.

    None where one isn't known: a round was filled in, or its moment lies before the one before.
    """
    splits: list[int | None] = []
    since: int | None = tally.joined
    for done in tally.rounds:
        if since is None or done.at is None or done.at < since:
            splits.append(None)
        else:
            splits.append(whole_seconds(done.at) - whole_seconds(since))
        since = done.at
    return tuple(splits)
