"""What happened in a class beside what was counted, as plain text."""

from collections.abc import Iterator
from datetime import datetime

from classclock.records.bests import long_day
from classclock.report.happenings import Happenings
from classclock.units.printable import printable

HEADINGS = {"accident": "Accidents", "hold": "The clock was held", "note": "Notes"}
"""By kind, in the order in which they stand."""
NOTHING = "Nothing was noted, and the clock was never held."
LOCAL_RULES = "Keep to your local rules on what is written down of an accident, and for how long."
_LONGEST = 240
"""Signs of a line: the longest that can be typed, with the time before it."""


def when_words(started: str) -> str:
    begun = datetime.fromisoformat(started)
    return f"{long_day(begun.date().isoformat())}, {begun:%H:%M}"


def happenings_lines(told: Happenings) -> tuple[str, ...]:
    return tuple(printable(line, _LONGEST) for line in _lines(told))


def _lines(told: Happenings) -> Iterator[str]:
    yield told.title
    yield ", ".join(filter(None, (when_words(told.started), told.club, told.address)))
    for kind, heading in HEADINGS.items():
        if found := told.of_kind(kind):
            yield ""
            yield heading
            for one in found:
                yield f"  {one.when:%H:%M:%S}  {one.text}  ({one.where})"
    if not told.happened:
        yield NOTHING
    if told.of_kind("accident"):
        yield ""
        yield LOCAL_RULES
