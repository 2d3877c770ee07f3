"""What happened, in the past tense, each with its moment. This is what a journal holds.

`at` is whole milliseconds on the class's clock. Events are numbered as they come, from zero; an
`entry` is the number of the event that it speaks of. Nothing here is ever taken out again: a
take-back is one more event.

Every event stands in one of the unions at the end, and whatever folds, says or counts events is a
`match` over one of them that mypy holds complete: an event that nobody has a rule for isn't typed.
"""

from msgspec import UNSET, Struct, UnsetType

from classclock.plan.formats.fit import Fit
from classclock.tally.lanes import Lane, Person, Portion, Sharing
from classclock.tally.signs import Doubt
from classclock.units.loads import Load


class _Happened(Struct, frozen=True, omit_defaults=True, forbid_unknown_fields=True):
    at: int


# -- the class ---------------------------------------------------------------


class ClassOpened(_Happened, frozen=True):
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
    ask_effort: bool = False
    """Whether the last screen asks everybody how hard it was."""


class PersonAdded(_Happened, frozen=True):
    person: Person


class PersonChanged(_Happened, frozen=True):
    """A key, a name or a mark was changed; the person's id stays."""

    person: Person


class PersonLeft(_Happened, frozen=True):
    """Gone: no lane in any later piece. Their key stays theirs, and they may be back."""

    person_id: str


class PersonBack(_Happened, frozen=True):
    """Who had left is here again."""

    person_id: str


class OptionChosen(_Happened, frozen=True):
    """Before a segment starts: what this person modifies in it."""

    person_id: str
    segment: int
    options: tuple[int, ...]
    load: str | None
    start_station: int
    portion: Portion | UnsetType = UNSET


class LoadChosen(_Happened, frozen=True):
    """Before a segment starts: what this person is to lift in it, whatever the plan says."""

    person_id: str
    segment: int
    set_number: int | None
    """From 1; None is every set."""
    load: Load | None
    """None: as planned again."""


class EquipmentShared(_Happened, frozen=True):
    """Before a segment starts: how its people share what is short; None: all as planned again."""

    segment: int
    sharing: Sharing | None


class PartnersSet(_Happened, frozen=True):
    """Before a segment starts: who shares a bar in it, turn by turn; no groups: nobody does."""

    segment: int
    groups: tuple[tuple[str, ...], ...]
    """Their ids, each group in the order of its turns."""


class TeamsSet(_Happened, frozen=True):
    """Before a segment starts: who shares a tally in it; no groups: as the plan has it."""

    segment: int
    groups: tuple[tuple[str, ...], ...]
    """Their ids; the first one's key is the team's."""
    how: str = ""
    """In words, as it was offered."""
    seed: int | None = None
    """What the lot was drawn with, where it was: the same people and seed make the same teams."""


class SegmentFitted(_Happened, frozen=True):
    """Before a segment starts: it is shorter than planned; None: as planned again."""

    segment: int
    fit: Fit | None


class FlagAcknowledged(_Happened, frozen=True):
    """Before a segment starts: the coach has read this flag on a person's loads in it."""

    person_id: str
    segment: int
    text: str


class EndMoved(_Happened, frozen=True):
    """The class's end, RFC 3339 with offset."""

    ends: str


class EmergencyNoted(_Happened, frozen=True):
    """A line for who, when and what was done; never shown on the wall."""

    text: str


class Noted(_Happened, frozen=True):
    """A line about the class, or about somebody in it; never shown on the wall."""

    text: str
    person_id: str | None = None
    """Whom it is about; None is the class."""


class EffortSaid(_Happened, frozen=True):
    """How hard the hour was for this person, in their own word; a later one counts instead."""

    person_id: str
    effort: int | None
    """0 to 10; None: it isn't kept any more."""


class EffortSkipped(_Happened, frozen=True):
    """Nobody is asked any more how hard it was; who says it all the same is heard."""


class ClassClosed(_Happened, frozen=True):
    pass


# -- the clock ---------------------------------------------------------------


class SegmentAdded(_Happened, frozen=True):
    """A clock without a plan: a segment more, on the board. All others keep their numbers."""

    segment: int
    """Its number: so many there were before it."""
    plan_text: str
    """A plan with this segment alone."""
    before: int | None
    """The segment that comes right after it; None: it is the last."""
    instead: int | None = None
    """One that was added before it, called off and never run: it doesn't come any more."""


class SegmentChosen(_Happened, frozen=True):
    """The board shows this segment; one that has run already shows its scores, unless `anew`."""

    segment: int
    heat: int = 1
    anew: bool = False


class SegmentStarted(_Happened, frozen=True):
    """The count-in began; go is at `go`. The lanes are as they stood then."""

    segment: int
    heat: int
    go: int
    lanes: tuple[Lane, ...]
    partners: tuple[tuple[str, ...], ...] = ()
    """Which of the lanes share a bar, by their ids, each group in the order of its turns."""


class CalledOff(_Happened, frozen=True):
    """The count-in was stopped before go: back to ready."""


class Held(_Happened, frozen=True):
    pass


class Resumed(_Happened, frozen=True):
    pass


class HoldUndone(_Happened, frozen=True):
    """Resumed as if it had never been held."""


class Restarted(_Happened, frozen=True):
    """A false start: the piece begins anew, and what was tapped doesn't count."""


class SegmentEnded(_Happened, frozen=True):
    """Ended by hand while held, or on enter when all were in; the cap needs no event."""


class TimeAdded(_Happened, frozen=True):
    """A countdown got longer, or shorter where `by` is negative. Milliseconds."""

    by: int


class ClockShifted(_Happened, frozen=True):
    """The reading was set right by hand after a restart. Milliseconds."""

    by: int


# -- the count ---------------------------------------------------------------


class _Entry(_Happened, frozen=True):
    lane: str


class Tapped(_Entry, frozen=True):
    """A round, a station, the finish, a rep or the planned load made, as the piece counts."""


class Numbered(_Entry, frozen=True):
    """Full rounds, odd reps, or both; or the reps of an interval, or all reps so far."""

    rounds: int | None = None
    reps: int | None = None
    interval: int | None = None
    """From 1; None is the one that the moment belongs to."""


class Lifted(_Entry, frozen=True):
    """A load made or missed; None is the planned one."""

    load: Load | None
    made: bool
    interval: int | None = None
    """Which set, from 1, where it was named; None is the one that the moment belongs to."""
    instead: bool = False
    """At the settle: this was the load of the first one in doubt; it keeps its set and moment."""


class FinishedNow(_Entry, frozen=True):
    pass


class StoppedHere(_Entry, frozen=True):
    pass


class OptionChanged(_Entry, frozen=True):
    """From here on the station uses this option; 0 is as written, for every station."""

    station: int
    option: int


class Corrected(_Entry, frozen=True):
    """At the settle, with a reason: the score is this, whatever was tapped."""

    reason: str
    rounds: int | None = None
    reps: int | None = None
    finish: int | None = None
    """Milliseconds of the piece."""
    load: Load | None = None


class LetStand(_Entry, frozen=True):
    """At the settle: the coach was asked of this doubt and went on; the first of its kind stands.

    What nobody gave counts as none, but for intervals, which stay unknown and aren't asked again.
    """

    doubt: Doubt
    intervals: tuple[int, ...] = ()
    """Those that nobody gave, from 1."""


class LaneJoined(_Happened, frozen=True):
    """Someone came late to a running piece."""

    lane: Lane


class TookBack(_Happened, frozen=True):
    entry: int


class BroughtBack(_Happened, frozen=True):
    """Undo of a take-back; `entry` is the entry that counts again."""

    entry: int


class Moved(_Happened, frozen=True):
    """Two calls were swapped: the entry was the other lane's, with its moment."""

    entry: int
    lane: str


class Settled(_Happened, frozen=True):
    """The scores of the segment are complete; unknown odd reps count as none."""

    segment: int
    heat: int


# -- which of them changes what ------------------------------------------------

ClassEvent = (
    ClassOpened
    | PersonAdded
    | PersonChanged
    | PersonLeft
    | PersonBack
    | OptionChosen
    | LoadChosen
    | EquipmentShared
    | PartnersSet
    | TeamsSet
    | SegmentFitted
    | FlagAcknowledged
    | EndMoved
    | EmergencyNoted
    | Noted
    | EffortSaid
    | EffortSkipped
    | ClassClosed
)
"""Who is here, and what was agreed: these change the class's record."""

RunEvent = SegmentAdded | SegmentChosen | SegmentStarted | CalledOff | Restarted
"""Which segment is on, and whether it has begun: these too change the class's record."""

ClockEvent = Held | Resumed | HoldUndone | SegmentEnded | TimeAdded | ClockShifted
"""The clock of the segment that is on: these change its sheet."""

LaneEvent = (
    Tapped | Numbered | Lifted | FinishedNow | StoppedHere | OptionChanged | Corrected | LetStand
)
"""An entry of a lane: it can be taken back."""

CountEvent = LaneEvent | LaneJoined | TookBack | BroughtBack | Moved | Settled
"""What is counted in the segment that is on: these change its sheet."""

SheetEvent = ClockEvent | CountEvent

Event = ClassEvent | RunEvent | SheetEvent
