"""What the coach means, in the imperative. The key language makes these; `decide` answers them."""

from decimal import Decimal

from msgspec import Struct

from classclock.tally.signs import Doubt

# -- the count: these reach `decide` -----------------------------------------


class Tap(Struct, frozen=True):
    lane: str


class SetNumber(Struct, frozen=True):
    """`12n`, `7+n`, `7+12n`, `3:12n`; in a piece scored by load `number` is the load made.

    `number` is None in `7+n`.
    """

    lane: str
    number: Decimal | None
    rounds: int | None = None
    interval: int | None = None
    instead: bool = False
    """In answer to a load in doubt: that was the load."""


class FinishNow(Struct, frozen=True):
    lane: str


class Miss(Struct, frozen=True):
    """A miss at this load, or at the planned one."""

    lane: str
    load: Decimal | None = None


class TakeBack(Struct, frozen=True):
    """That lane's last entry; or of all the newest, the second newest, …, whoever's."""

    lane: str | None = None
    newest: int = 1


class TakeOut(Struct, frozen=True):
    """In answer to a doubt: take back the entry that it comes from."""

    lane: str
    doubt: Doubt


class BringBack(Struct, frozen=True):
    pass


class Move(Struct, frozen=True):
    """The first one's last entry was the second one's."""

    lane: str
    to: str


class ChangeOption(Struct, frozen=True):
    """From here that lane uses the piece's option N, counted through all its stations; 0: none."""

    lane: str
    option: int


class StopLane(Struct, frozen=True):
    lane: str


class Correct(Struct, frozen=True):
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
    | TakeOut
    | BringBack
    | Move
    | ChangeOption
    | StopLane
    | Correct
)

# -- the clock and the class: these reach `live` ------------------------------


class Start(Struct, frozen=True):
    """Start the count-in of the segment on the board."""


class CallOff(Struct, frozen=True):
    """Stop the count-in: back to ready."""


class HoldClock(Struct, frozen=True):
    pass


class Resume(Struct, frozen=True):
    pass


class UndoHold(Struct, frozen=True):
    pass


class EndSegment(Struct, frozen=True):
    pass


class Restart(Struct, frozen=True):
    pass


class AddTime(Struct, frozen=True):
    minutes: int


class ShiftClock(Struct, frozen=True):
    """Set the reading right by hand, after a restart."""

    ms: int


class Next(Struct, frozen=True):
    """The segment is over: what is asked first stands; with nothing asked, settle and go on."""

    all_stands: bool = False
    """Settle and go on, though something is asked."""


class GoTo(Struct, frozen=True):
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

# -- who is here: between pieces, when letters mean people ---------------------


class SayGone(Struct, frozen=True):
    """That person has left: no lane from here on."""

    person: str


class SayBack(Struct, frozen=True):
    person: str


class ChooseOption(Struct, frozen=True):
    """That person uses the piece's option N in the piece to come; 0: as written."""

    person: str
    option: int


class ChooseLoad(Struct, frozen=True):
    """That person's load in a set of the piece to come, from 1; None is the one that is next."""

    person: str
    load: Decimal
    set_number: int | None = None


class SwapPlaces(Struct, frozen=True):
    """The two change places in their partners or teams."""

    person: str
    other: str


class SayEffort(Struct, frozen=True):
    """How hard the hour was for that person: `7n` on the last screen."""

    person: str
    effort: int


PeopleCommand = SayGone | SayBack | ChooseOption | ChooseLoad | SwapPlaces | SayEffort

# -- the screen: these never leave it -----------------------------------------


class Select(Struct, frozen=True):
    """At the settle a bare letter only selects."""

    lane: str


class AddLate(Struct, frozen=True):
    """Type the name of someone who came late."""


class WriteNote(Struct, frozen=True):
    """Type a line about the class or somebody in it, kept off the wall."""


class ShowCard(Struct, frozen=True):
    """The emergency card, the clock held."""


class ShowKeys(Struct, frozen=True):
    pass


class ShowNotices(Struct, frozen=True):
    """All that was said in this class; again: enough of it."""


class TurnScreen(Struct, frozen=True):
    """The coach's own screen in place of the room's wall; again: the wall."""


class ShowPeople(Struct, frozen=True):
    """Who is here: come, gone, named, and what each does in the piece to come."""


class Leave(Struct, frozen=True):
    pass


ScreenCommand = (
    Select
    | AddLate
    | WriteNote
    | ShowCard
    | ShowKeys
    | ShowNotices
    | TurnScreen
    | ShowPeople
    | Leave
)

Command = CountCommand | ClockCommand | PeopleCommand | ScreenCommand
