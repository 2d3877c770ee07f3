"""What a segment's people are to look out for: the plan's own words, then its movements'."""

from collections.abc import Iterable

from classclock.plan.model import Segment
from classclock.plan.spelling import fold, plain_words

_SAME_BEGINNING = 2
"""Words by which a caution is the same in other words: `Safety bars …`, `Knees hurt: …`."""


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


def with_more(own: tuple[str, ...], more: Iterable[str]) -> tuple[str, ...]:
    """A plan's own lines, then the others, but for those that begin as one of its own does.

    Two lines about one thing would bury a third; a line about anything else is never left out.
    """
    said = {_beginning(line) for line in own}
    return each_once((*own, *(line for line in more if _beginning(line) not in said)))


def _beginning(line: str) -> str:
    return " ".join(plain_words(line).split()[:_SAME_BEGINNING]) or line
