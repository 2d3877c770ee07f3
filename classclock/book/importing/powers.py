"""Scores that lie far beyond what the book has, or beyond what people can do: they are asked about.

The limits are wide on purpose: what is asked about should nearly always be a slip.
"""

from collections.abc import Mapping, Sequence
from decimal import Decimal
from statistics import median

from msgspec import Struct

from classclock.book.importing.old_scores import OldScore
from classclock.records.result import A_ROUND, ScoreKind, finish_of, kg_of
from classclock.units.loads import parse_load

_MOST_KG = Decimal(500)
"""About the heaviest that anybody has lifted off the floor. From memory, no source."""
_MOST_ROUNDS, _MOST_ODD, _MOST_REPS = 150, 600, 3000
_SHORTEST_S, _LONGEST_S = 5, 3 * 3600
"""Of one hour's work with classes in mind: common sense, no source."""
_ODD_TIMES, _LEAST_ODD = 3, 30
"""More odd reps than so many times the most there were; up to the least nobody is asked."""
_TIMES = 2
_SLOWER = 3
_ENOUGH = 4
"""So many scores of a sheet say what is usual in it, where the book has none."""


class Usual(Struct, frozen=True):
    """The least and the most done on a benchmark, in seconds, reps, rounds or kilograms."""

    least: float
    most: float
    most_odd: int = 0
    """Of rounds the most odd reps."""


UsualScores = Mapping[tuple[str, bool], Usual]
"""By benchmark, times for finished work (True) apart from all else."""


def amount(kind: ScoreKind, worth: int) -> tuple[float, bool]:
    """What a score is in its own unit, and whether less of it is better."""
    if kind == "time" and (seconds := finish_of(worth)) is not None:
        return float(seconds), True
    if kind == "load":
        return float(kg_of(worth).amount), False
    return (float(worth // A_ROUND), False) if kind == "rounds" else (float(worth), False)


def beyond_people(score: OldScore) -> bool:
    """Whether nobody can do that, or nobody does it within a class."""
    much, is_time = amount(score.kind, score.worth)
    if is_time:
        return not _SHORTEST_S <= much <= _LONGEST_S
    match score.kind:
        case "load":
            return much > _MOST_KG
        case "rounds":
            return much > _MOST_ROUNDS or _odd(score) > _MOST_ODD
        case _:
            return much > _MOST_REPS


def beyond_people_load(written: str) -> bool:
    """The same of a load that was used."""
    return any(parse_load(part, "kg").kg > _MOST_KG for part in written.split("/"))


def beyond_usual(benchmark: str, score: OldScore, usual: UsualScores) -> bool:
    """Whether it lies far from all that was done on this benchmark."""
    much, is_time = amount(score.kind, score.worth)
    known = usual.get((benchmark, is_time))
    if known is None:
        return False
    if score.kind == "rounds" and _odd(score) > max(known.most_odd * _ODD_TIMES, _LEAST_ODD):
        return True
    too_slow = is_time and much > known.most * _SLOWER
    too_fast = is_time and much * _TIMES < known.least
    return too_slow or too_fast or (not is_time and much > known.most * _TIMES)


def usual_in_sheet(scores: Sequence[tuple[str, OldScore]]) -> UsualScores:
    """What is usual on the benchmarks of a sheet that has enough: half to twice the median."""
    found: dict[tuple[str, bool], list[float]] = {}
    odd: dict[tuple[str, bool], list[int]] = {}
    for benchmark, score in scores:
        much, is_time = amount(score.kind, score.worth)
        found.setdefault((benchmark, is_time), []).append(much)
        odd.setdefault((benchmark, is_time), []).append(_odd(score))
    return {
        key: Usual(median(each) / 2, median(each) * 2, int(median(odd[key])))
        for key, each in found.items()
        if len(each) > _ENOUGH
    }


def _odd(score: OldScore) -> int:
    return score.worth % A_ROUND if score.kind == "rounds" else 0
