"""What the coach means, in the imperative. The key language makes these; `decide` answers them."""

from dataclasses import dataclass
from decimal import Decimal

# -- the count: these reach `decide` -----------------------------------------


@dataclass(frozen=True, slots=True)
class Tap:
    lane: str


@dataclass(frozen=True, slots=True)
class SetNumber:
    """`12n`, `7+n`, `7+12n`, `3:12n`; in a piece scored by load `number` is the load made.

    `number` is None in `7+n`.
    """

    lane: str
    number: Decimal | None
    rounds: int | None = None
    interval: int | None = None


@dataclass(frozen=True, slots=True)
class FinishNow:
    lane: str


@dataclass(frozen=True, slots=True)
class Miss:
    """A miss at this load, or at the planned one."""

    lane: str
    load: Decimal | None = None


@dataclass(frozen=True, slots=True)
class TakeBack:
    """That lane's last entry, or the newest, whoever's."""

    lane: str | None = None


@dataclass(frozen=True, slots=True)
class BringBack:
    pass


@dataclass(frozen=True, slots=True)
class Move:
    """The first one's last entry was the second one's."""

    lane: str
    to: str


@dataclass(frozen=True, slots=True)
class ChangeOption:
    """From here that lane uses the piece's option N, counted through all its stations; 0: none."""

    lane: str
    option: int


@dataclass(frozen=True, slots=True)
class StopLane:
    lane: str


@dataclass(frozen=True, slots=True)
class Correct:
    """A score as people write it (`7+12`, `8:31`, `112`, `85 kg`), and why."""

    lane: str
    score: str
    reason: str


CountCommand = (
    Tap
    | SetNumber
    | FinishNow
    | Miss
    | TakeBack
    | BringBack
    | Move
    | ChangeOption
    | StopLane
    | Correct
)

# -- the clock and the class: these reach `live` ------------------------------


@dataclass(frozen=True, slots=True)
class Start:
    """Start the count-in of the segment on the board."""


@dataclass(frozen=True, slots=True)
class CallOff:
    """Stop the count-in: back to ready."""


@dataclass(frozen=True, slots=True)
class HoldClock:
    pass


@dataclass(frozen=True, slots=True)
class Resume:
    pass


@dataclass(frozen=True, slots=True)
class UndoHold:
    pass


@dataclass(frozen=True, slots=True)
class EndSegment:
    pass


@dataclass(frozen=True, slots=True)
class Restart:
    pass


@dataclass(frozen=True, slots=True)
class AddTime:
    minutes: int


@dataclass(frozen=True, slots=True)
class ShiftClock:
    """Set the reading right by hand, after a restart."""

    ms: int


@dataclass(frozen=True, slots=True)
class Next:
    """The segment is over: settle it and go on. Names who is unsettled first, once."""


@dataclass(frozen=True, slots=True)
class GoTo:
    """Between segments: another one, by steps; 0 repeats this one."""

    steps: int


ClockCommand = (
    Start
    | CallOff
    | HoldClock
    | Resume
    | UndoHold
    | EndSegment
    | Restart
    | AddTime
    | ShiftClock
    | Next
    | GoTo
)

# -- the screen: these never leave it -----------------------------------------


@dataclass(frozen=True, slots=True)
class Select:
    """At the settle a bare letter only selects."""

    lane: str


@dataclass(frozen=True, slots=True)
class AddLate:
    """Type the name of someone who came late."""


@dataclass(frozen=True, slots=True)
class ShowCard:
    """The emergency card, the clock held."""


@dataclass(frozen=True, slots=True)
class ShowKeys:
    pass


@dataclass(frozen=True, slots=True)
class Leave:
    pass


ScreenCommand = Select | AddLate | ShowCard | ShowKeys | Leave

Command = CountCommand | ClockCommand | ScreenCommand
