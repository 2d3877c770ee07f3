"""What happened, in the past tense, each with its moment. This is what a journal holds.

`at` is whole milliseconds on the class's clock. Events are numbered as they come, from zero; an
`entry` is the number of the event that it speaks of. Nothing here is ever taken out again: a
take-back is one more event.
"""

from dataclasses import dataclass

from classclock.strength.loads import Load
from classclock.tally.lanes import Lane, Person


@dataclass(frozen=True, slots=True)
class Event:
    at: int


# -- the class ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class ClassOpened(Event):
    """The whole plan is in it, so that the journal can be replayed though the file changed."""

    plan_name: str
    """The plan file's name without its ending."""
    plan_text: str
    unit: str
    people: tuple[Person, ...]
    ends: str | None
    """When the class ends, RFC 3339 with offset."""


@dataclass(frozen=True, slots=True)
class PersonAdded(Event):
    person: Person


@dataclass(frozen=True, slots=True)
class PersonChanged(Event):
    """A key, a name or a mark was changed; the person's id stays."""

    person: Person


@dataclass(frozen=True, slots=True)
class PersonLeft(Event):
    person_id: str


@dataclass(frozen=True, slots=True)
class OptionChosen(Event):
    """Before a segment starts: what this person modifies in it."""

    person_id: str
    segment: int
    options: tuple[int, ...]
    load: str | None
    start_station: int


@dataclass(frozen=True, slots=True)
class FlagAcknowledged(Event):
    """Before a segment starts: the coach has read this flag on a person's loads in it."""

    person_id: str
    segment: int
    text: str


@dataclass(frozen=True, slots=True)
class EndMoved(Event):
    """The class's end, RFC 3339 with offset."""

    ends: str


@dataclass(frozen=True, slots=True)
class EmergencyNoted(Event):
    """A line for who, when and what was done; never shown on the wall."""

    text: str


@dataclass(frozen=True, slots=True)
class ClassClosed(Event):
    pass


# -- the clock ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class SegmentChosen(Event):
    """The board shows this segment; one that has run already shows its scores, unless `anew`."""

    segment: int
    heat: int = 1
    anew: bool = False


@dataclass(frozen=True, slots=True)
class SegmentStarted(Event):
    """The count-in began; go is at `go`. The lanes are as they stood then."""

    segment: int
    heat: int
    go: int
    lanes: tuple[Lane, ...]


@dataclass(frozen=True, slots=True)
class CalledOff(Event):
    """The count-in was stopped before go: back to ready."""


@dataclass(frozen=True, slots=True)
class Held(Event):
    pass


@dataclass(frozen=True, slots=True)
class Resumed(Event):
    pass


@dataclass(frozen=True, slots=True)
class HoldUndone(Event):
    """Resumed as if it had never been held."""


@dataclass(frozen=True, slots=True)
class Restarted(Event):
    """A false start: the piece begins anew, and what was tapped doesn't count."""


@dataclass(frozen=True, slots=True)
class SegmentEnded(Event):
    """Ended by hand while held, or on enter when all were in; the cap needs no event."""


@dataclass(frozen=True, slots=True)
class TimeAdded(Event):
    """A countdown got longer, or shorter where `by` is negative. Milliseconds."""

    by: int


@dataclass(frozen=True, slots=True)
class ClockShifted(Event):
    """The reading was set right by hand after a restart. Milliseconds."""

    by: int


# -- the count ---------------------------------------------------------------


@dataclass(frozen=True, slots=True)
class LaneEvent(Event):
    """An entry: it can be taken back."""

    lane: str


@dataclass(frozen=True, slots=True)
class Tapped(LaneEvent):
    """A round, a station, the finish, a rep or the planned load made, as the piece counts."""


@dataclass(frozen=True, slots=True)
class Numbered(LaneEvent):
    """Full rounds, odd reps, or both; or the reps of an interval, or all reps so far."""

    rounds: int | None = None
    reps: int | None = None
    interval: int | None = None
    """From 1; None is the one that the moment belongs to."""


@dataclass(frozen=True, slots=True)
class Lifted(LaneEvent):
    """A load made or missed; None is the planned one."""

    load: Load | None
    made: bool
    interval: int | None = None
    """Which set, from 1, where it was named; None is the one that the moment belongs to."""


@dataclass(frozen=True, slots=True)
class FinishedNow(LaneEvent):
    pass


@dataclass(frozen=True, slots=True)
class StoppedHere(LaneEvent):
    pass


@dataclass(frozen=True, slots=True)
class OptionChanged(LaneEvent):
    """From here on the station uses this option; 0 is as written, for every station."""

    station: int
    option: int


@dataclass(frozen=True, slots=True)
class Corrected(LaneEvent):
    """At the settle, with a reason: the score is this, whatever was tapped."""

    reason: str
    rounds: int | None = None
    reps: int | None = None
    finish: int | None = None
    """Milliseconds of the piece."""
    load: Load | None = None


@dataclass(frozen=True, slots=True)
class LaneJoined(Event):
    """Someone came late to a running piece."""

    lane: Lane


@dataclass(frozen=True, slots=True)
class TookBack(Event):
    entry: int


@dataclass(frozen=True, slots=True)
class BroughtBack(Event):
    """Undo of a take-back; `entry` is the entry that counts again."""

    entry: int


@dataclass(frozen=True, slots=True)
class Moved(Event):
    """Two calls were swapped: the entry was the other lane's, with its moment."""

    entry: int
    lane: str


@dataclass(frozen=True, slots=True)
class Settled(Event):
    """The scores of the segment are complete; unknown odd reps count as none."""

    segment: int
    heat: int
