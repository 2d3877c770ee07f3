"""What a benchmark is called wherever it is read: as the club writes it. Pure."""

from collections.abc import Iterable

from classclock.records.result import Result
from classclock.units.names import tidy_name
from classclock.units.spelling import plain_words


def latest_of_each(results: Iterable[Result]) -> dict[str, Result]:
    """By benchmark the latest of these results, whose writing holds."""
    latest: dict[str, Result] = {}
    for one in results:
        known = latest.get(one.benchmark)
        if known is None or (one.moment >= known.moment and _later(one, known)):
            latest[one.benchmark] = one
    return latest


def headings(results: Iterable[Result]) -> dict[str, str]:
    """By benchmark what it is called, as it was written last."""
    return {key: heading(one) for key, one in latest_of_each(results).items()}


def heading(result: Result) -> str:
    """What its benchmark is called by this result."""
    return heading_of(result.benchmark, result.piece, result.written)


def heading_of(benchmark: str, piece: str, written: str) -> str:
    """The piece's own name where it is the benchmark's: `Night Line` of `night-line`."""
    plain = plain_words(benchmark)
    if plain and plain == plain_words(piece):
        return tidy_name(piece)
    return written or benchmark


def _later(one: Result, other: Result) -> bool:
    return (one.moment, one.written, one.piece) > (other.moment, other.written, other.piece)
