"""What is said of a segment that was made shorter, so that the class ends in time."""

from classclock.plan.formats.fit import length_of_planned
from classclock.plan.formats.timelines import length
from classclock.plan.outline import describe
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import Sheet


def fitted_words(record: ClassRecord, index: int, run: Sheet | None = None) -> str:
    """`12:00 of 16:00 planned`, of a `run` of the segment where one is given; empty as planned."""
    if run is None and record.left_out(index):
        return "left out"
    planned = record.planned_length(index, run)
    if planned is None:
        return ""
    lasts = length(record.plan.segment[index]) if run is None else run.timeline.total
    return length_of_planned(lasts, planned)


def described(record: ClassRecord, index: int, run: Sheet) -> str:
    """The format of a run of the segment in the words of the wall, with what was planned."""
    words, fitted = describe(run.piece.segment), fitted_words(record, index, run)
    return f"{words}; {fitted}" if fitted else words
