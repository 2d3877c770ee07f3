"""The plan: its segments, each in one of the formats.

A format is a module in `formats/`; what a station is stands in `station.py`, what a key can hold
in `value_types.py`, what a mistake is answered with in `reading/`.
"""

import datetime as dt
from collections.abc import Mapping
from typing import Annotated, get_args

from pydantic import Field

from classclock.plan.formats.capped_for_time import CappedForTime
from classclock.plan.formats.countdown import Countdown
from classclock.plan.formats.interval import Interval
from classclock.plan.formats.rounds_in_time import RoundsInTime
from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.value_types import Lines, Strict, Text

Segment = Annotated[
    Countdown | Interval | RoundsInTime | CappedForTime, Field(discriminator="format")
]
"""Every format there is, in the order in which they are offered.

A plan that leaves its format out is answered with the first that has rounds, or that hasn't.
"""


def _name(form: type[SegmentBase]) -> str:
    (name,) = get_args(form.model_fields["format"].annotation)
    return str(name)


FORMATS: Mapping[str, type[SegmentBase]] = {
    _name(form): form for form in get_args(get_args(Segment)[0])
}
"""The same by the name that a plan writes."""
LENGTH_KEYS = tuple(
    dict.fromkeys(key for form in FORMATS.values() if (key := form.about.length_key))
)
"""The keys that say how long a segment lasts."""


class Plan(Strict):
    """What one class will do."""

    title: Text
    """What the board calls this class."""
    date: Annotated[dt.date, Field(strict=True)] | None = None
    """The day on which the class is to be held, for the weeks at a glance."""
    notes: Lines = ()
    """For the coach, on the board of every segment."""
    segment: Annotated[tuple[Segment, ...], Field(min_length=1, max_length=60)]
    """The parts of the class, one after the other."""


def is_piece(segment: SegmentBase) -> bool:
    """Whether the segment is scored."""
    return segment.counting.counts_by != "nothing"
