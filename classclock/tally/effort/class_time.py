"""How long a class lasted for somebody: from its first start to its last end, or until they left.

Pure: from the class's record; whole milliseconds of its clock.
"""

from classclock.tally.record import ClassRecord
from classclock.tally.sheet import Sheet


def time_here(record: ClassRecord, person_id: str) -> int | None:
    """How long the class lasted for this person (ms); None while nothing has been started.

    Breaks between segments are in it, and so is a clock that was held: it is the class's time. Who
    came late has all of it.
    """
    runs = record.runs.values()
    if not runs:
        return None
    first = min(run.clock.go for run in runs)
    last = max(map(_end, runs))
    return max(0, min(last, record.left_at.get(person_id, last)) - first)


def _end(run: Sheet) -> int:
    """The moment of its end, as things stand."""
    clock = run.clock
    if run.ended_by is not None:
        return run.ended_by.at
    if clock.held:
        return clock.holds[-1].since
    stood = (clock.go, *(one.until or one.since for one in clock.holds))
    latest = max((*stood, *(one.at for one in clock.shifts)))
    return latest + run.end(latest) - clock.elapsed(latest)
