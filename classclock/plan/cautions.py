"""What a segment's people are to look out for: when to stop, the plan's words, its movements'."""

from collections.abc import Iterable

from classclock.plan.care import STILL_HURTS
from classclock.plan.model import Segment, is_piece
from classclock.units.spelling import fold


def cautions_of(segment: Segment, stop: str) -> tuple[str, ...]:
    """The segment's cautions and those of its stations, each once.

    A piece begins with `stop`, the club's rule of when to stop (empty: it has none); what to do
    where an easier movement hurts too comes last.
    """
    rule = (stop,) if stop and is_piece(segment) else ()
    stations = (line for station in segment.station for line in station.caution)
    lines = each_once((*rule, *segment.caution, *stations))
    return tuple(sorted(lines, key=lambda line: line == STILL_HURTS))


def each_once(lines: Iterable[str]) -> tuple[str, ...]:
    """Each line once, however it is spelled; the first spelling stays."""
    kept: dict[str, str] = {}
    for line in lines:
        kept.setdefault(fold(line) or line, line)
    return tuple(kept.values())
