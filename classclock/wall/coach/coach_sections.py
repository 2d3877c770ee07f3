"""The lines beside the lanes: who is asked next, the last entries, what is noted, what comes."""

from collections.abc import Collection, Iterable, Mapping, Sequence
from datetime import datetime

from classclock.plan.formats.timelines import length
from classclock.planning.fitting import time_needed
from classclock.tally.events import Noted
from classclock.tally.fitted_words import fitted_words
from classclock.tally.lanes import Lane
from classclock.tally.load_flags import LoadFlag
from classclock.tally.record import ClassRecord
from classclock.tally.sheet import Sheet
from classclock.tally.signs import signed
from classclock.units.printable import printable
from classclock.units.times import show_time
from classclock.wall.coach.coach_entries import last_entries
from classclock.wall.coach.coach_values import CoachLine, CoachSection
from classclock.wall.coach.to_ask import Asked
from classclock.wall.time_words import left_words

_LONGEST = 200


def asked_section(asked: Iterable[Asked], lanes: Collection[Lane]) -> CoachSection:
    """Who is to be asked, the next one first."""
    known = {lane.id: lane for lane in lanes}
    lines = [_asked_line(one, known) for one in asked]
    heading = "Ask next" if lines else "Nobody is to be asked"
    return CoachSection("asked", heading, tuple(lines))


def _asked_line(one: Asked, lanes: Mapping[str, Lane]) -> CoachLine:
    lane = lanes[one.lane]
    why = f" ({one.detail})" if one.detail and one.detail not in one.words else ""
    words = printable(f"{lane.name}: {one.said()}{why}", _LONGEST)
    return CoachLine(words, lane.key.upper(), one.keys, "doubtful")


def flags_section(flags: Sequence[LoadFlag], more: Iterable[str], *, here: bool) -> CoachSection:
    """Before a start: the loads nobody has looked at, and what else is in the way.

    `here`: they are those of the segment on the board.
    """
    lines = [
        CoachLine(
            printable(f"{flag.name}: {signed('load', flag.text)}", _LONGEST),
            flag.key.upper(),
            tone="doubtful",
        )
        for flag in flags
    ]
    lines += [CoachLine(printable(words, _LONGEST), tone="doubtful") for words in more if words]
    if flags:
        heading = f"Loads to be looked at{': F7' if here else ''}"
    else:
        heading = "Before the start" if lines else "Ready: enter starts"
    return CoachSection("asked", heading, tuple(lines))


def entries_section(sheet: Sheet) -> CoachSection:
    """The newest first, each with what takes it back."""
    lines = tuple(last_entries(sheet))
    heading = "Last entries" if lines else "No entry yet"
    return CoachSection("entries", heading, lines, "takes it back" if lines else "")


def plan_section(record: ClassRecord, now: datetime) -> CoachSection:
    """The segments after the one on the board with their minutes, at this time of day."""
    if record.closed:
        return CoachSection("plan", "The class is over", ())
    lines = []
    for index in record.to_come[1:]:
        segment = record.plan.segment[index]
        fitted = fitted_words(record, index)
        words = printable(segment.name, 60) + (f", {fitted}" if fitted else "")
        lines.append(CoachLine(words, show_time(length(segment))))
    left = CoachLine(left_words(now, record.ends, time_needed(record)), tone="quiet")
    return CoachSection("plan", "Next" if lines else "Nothing comes after this", (*lines, left))


def notes_section(
    record: ClassRecord, notes: Sequence[Noted], planned: Iterable[str]
) -> CoachSection:
    """What was noted in this class, the newest first, then what the plan has noted."""
    names = {person.id: person.name for person in record.people}
    lines = []
    for note in reversed(notes):
        name = names.get(note.person_id or "", "")
        words = f"{name}: {note.text}" if name else note.text
        lines.append(CoachLine(printable(words, _LONGEST)))
    lines += [CoachLine(words, tone="quiet") for words in planned]
    heading = "Notes" if lines else "No notes: ctrl+e writes one"
    return CoachSection("notes", heading, tuple(lines))
