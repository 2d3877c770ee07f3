"""What happened, in the past tense, each with its moment. This is what a journal holds.

`at` is whole milliseconds on the class's clock. Events are numbered as they come, from zero; an
`entry` is the number of the event that it speaks of. Nothing here is ever taken out again: a
take-back is one more event.
"""

from msgspec import Struct

from classclock.tally.lanes import Lane, Person, Sharing
from classclock.units.loads import Load


class Event(Struct, frozen=True, omit_defaults=True):
    at: int


# -- the class ---------------------------------------------------------------


class ClassOpened(Event, frozen=True):
    """The whole plan is in it, so that the journal can be replayed though the file changed."""

    plan_name: str
    """The plan file's name without its ending."""
    plan_text: str
    unit: str
    people: tuple[Person, ...]
    ends: str | None
    """When the class ends, RFC 3339 with offset."""
    stop: str = ""
    """The club's rule of when to stop, as it was worded then; older journals have none."""


class PersonAdded(Event, frozen=True):
    person: Person


class PersonChanged(Event, frozen=True):
    """A key, a name or a mark was changed; the person's id stays."""

    person: Person


class PersonLeft(Event, frozen=True):
    person_id: str


class OptionChosen(Event, frozen=True):
    """Before a segment starts: what this person modifies in it."""

    person_id: str
    segment: int
    options: tuple[int, ...]
    load: str | None
    start_station: int


class EquipmentShared(Event, frozen=True):
    """Before a segment starts: how its people share what is short; None: all as planned again."""

    segment: int
    sharing: Sharing | None


class FlagAcknowledged(Event, frozen=True):
    """Before a segment starts: the coach has read this flag on a person's loads in it."""

    person_id: str
    segment: int
    text: str


class EndMoved(Event, frozen=True):
    """The class's end, RFC 3339 with offset."""

    ends: str


class EmergencyNoted(Event, frozen=True):
    """A line for who, when and what was done; never shown on the wall."""

    text: str


class ClassClosed(Event, frozen=True):
    pass


# -- the clock ---------------------------------------------------------------


class SegmentChosen(Event, frozen=True):
    """The board shows this segment; one that has run already shows its scores, unless `anew`."""

    segment: int
    heat: int = 1
    anew: bool = False


class SegmentStarted(Event, frozen=True):
    """The count-in began; go is at `go`. The lanes are as they stood then."""

    segment: int
    heat: int
    go: int
    lanes: tuple[Lane, ...]


class CalledOff(Event, frozen=True):
    """The count-in was stopped before go: back to ready."""


class Held(Event, frozen=True):
    pass


class Resumed(Event, frozen=True):
    pass


class HoldUndone(Event, frozen=True):
    """Resumed as if it had never been held."""


class Restarted(Event, frozen=True):
    """A false start: the piece begins anew, and what was tapped doesn't count."""


class SegmentEnded(Event, frozen=True):
    """Ended by hand while held, or on enter when all were in; the cap needs no event."""


class TimeAdded(Event, frozen=True):
    """A countdown got longer, or shorter where `by` is negative. Milliseconds."""

    by: int


class ClockShifted(Event, frozen=True):
    """The reading was set right by hand after a restart. Milliseconds."""

    by: int


# -- the count ---------------------------------------------------------------


class LaneEvent(Event, frozen=True):
    """An entry: it can be taken back."""

    lane: str


class Tapped(LaneEvent, frozen=True):
    """A round, a station, the finish, a rep or the planned load made, as the piece counts."""


class Numbered(LaneEvent, frozen=True):
    """Full rounds, odd reps, or both; or the reps of an interval, or all reps so far."""

    rounds: int | None = None
    reps: int | None = None
    interval: int | None = None
    """From 1; None is the one that the moment belongs to."""


class Lifted(LaneEvent, frozen=True):
    """A load made or missed; None is the planned one."""

    load: Load | None
    made: bool
    interval: int | None = None
    """Which set, from 1, where it was named; None is the one that the moment belongs to."""


class FinishedNow(LaneEvent, frozen=True):
    pass


class StoppedHere(LaneEvent, frozen=True):
    pass


class OptionChanged(LaneEvent, frozen=True):
    """From here on the station uses this option; 0 is as written, for every station."""

    station: int
    option: int


class Corrected(LaneEvent, frozen=True):
    """At the settle, with a reason: the score is this, whatever was tapped."""

    reason: str
    rounds: int | None = None
    reps: int | None = None
    finish: int | None = None
    """Milliseconds of the piece."""
    load: Load | None = None


class LaneJoined(Event, frozen=True):
    """Someone came late to a running piece."""

    lane: Lane


class TookBack(Event, frozen=True):
    entry: int


class BroughtBack(Event, frozen=True):
    """Undo of a take-back; `entry` is the entry that counts again."""

    entry: int


class Moved(Event, frozen=True):
    """Two calls were swapped: the entry was the other lane's, with its moment."""

    entry: int
    lane: str


class Settled(Event, frozen=True):
    """The scores of the segment are complete; unknown odd reps count as none."""

    segment: int
    heat: int
