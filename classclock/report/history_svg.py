"""A history as points to draw in a page: where each result stands on a plane of 1000 by 240."""

from collections.abc import Sequence
from datetime import date

from msgspec import Struct

from classclock.records.bests import in_one_line
from classclock.records.result import Result
from classclock.records.score_trend import measured
from classclock.report.plot import LEAST_POINTS, provisional

WIDTH, HEIGHT = 1000, 240


class Point(Struct, frozen=True):
    x: float
    y: float
    score: str
    words: str
    modified: bool
    provisional: bool
    best: bool
    """Whether nothing before was better on this scale, among those of its terms."""


def points(results: Sequence[Result]) -> tuple[Point, ...]:
    """A point for each result that stands on one scale; better is higher. None for fewer than two.

    Where all are of one day or of one value they stand in the middle.
    """
    shown = [(one, value) for one in results if (value := measured(one)) is not None]
    if len(shown) < LEAST_POINTS:
        return ()
    days = [date.fromisoformat(one.day).toordinal() for one, _ in shown]
    values = [-value if one.kind == "time" else value for one, value in shown]
    most: list[Result] = []
    found = []
    for (one, _), day, value in zip(shown, days, values, strict=True):
        best = one.counts and not any(
            in_one_line(one, other) and (one.worth or 0) <= (other.worth or 0) for other in most
        )
        if best:
            most.append(one)
        found.append(
            Point(
                _scaled(day, days, WIDTH),
                HEIGHT - _scaled(value, values, HEIGHT),
                one.score,
                f"{one.score}, {one.day}, {one.terms}" + (", provisional" * provisional(one)),
                bool(one.terms.modification),
                provisional(one),
                best,
            )
        )
    return tuple(found)


def _scaled(value: float, among: Sequence[float], length: int) -> float:
    low, high = min(among), max(among)
    return length / 2 if low == high else round((value - low) / (high - low) * length, 1)
