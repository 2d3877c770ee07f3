"""Which loads of a plan are to be looked at for those who are named."""

from pathlib import Path

from classclock.book.asking.lift_reading import LiftReading, loads_reader
from classclock.plan.model import Plan
from classclock.plan.settings.club import Club
from classclock.tally.lane_keys import people_named
from classclock.tally.load_flags import LoadFlag, load_flags, loads_to_choose
from classclock.tally.record import ClassRecord


def loads_to_look_at(
    plan: Plan, names: tuple[str, ...], club: Club, folder: Path
) -> tuple[LoadFlag, ...]:
    """What the coach would be told before the start, segment by segment.

    Nobody has chosen between several loads yet, so those of the plan by name aren't judged.
    """
    read_loads = loads_reader(plan, club, LiftReading(folder))
    loads = None if read_loads is None else read_loads(plan)
    record = ClassRecord(plan, club.unit, people=people_named(names))
    found = [
        flag
        for index in range(len(plan.segment))
        for told in (load_flags, loads_to_choose)
        for flag in told(record, loads, (index,))
    ]
    return tuple(found)
