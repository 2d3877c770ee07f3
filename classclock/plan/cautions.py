"""What a segment's people are to look out for: the plan's own words, then its movements'."""

from collections.abc import Iterable

from classclock.plan.model import Segment
from classclock.plan.spelling import fold


def cautions_of(segment: Segment) -> tuple[str, ...]:
    """The segment's cautions and those of its stations, each once."""
    stations = (line for station in segment.station for line in station.caution)
    return each_once((*segment.caution, *stations))


def each_once(lines: Iterable[str]) -> tuple[str, ...]:
    """Each line once, however it is spelled; the first spelling stays."""
    kept: dict[str, str] = {}
    for line in lines:
        kept.setdefault(fold(line) or line, line)
    return tuple(kept.values())
