"""What keys mean at a moment, what they have left behind, and what a stroke comes to."""

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.plan.formats.counting import CountsBy
from classclock.tally.commands import Command
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.keys.strokes import LETTERS
from classclock.tally.scores.questions import ScoreQuestion

LAPSE_MS = 4_000


class KeyContext(Struct, frozen=True):
    """What the keys mean at the moment of the stroke."""

    keys: Mapping[str, str]
    """Whom each key means, a to z: the lane on now, or between pieces the person, by their ids."""
    phase: KeyPhase
    counts_by: CountsBy
    can_change_time: bool = False
    all_in: bool = False
    """Every lane has finished or stopped, so that enter ends the running piece."""
    asked: ScoreQuestion | None = None
    """What the settle asks first: a number and enter answer it."""
    options: int = 0
    """How many options there are in the segment: above nine each is called with two digits."""
    too_many: bool = False
    """Between pieces: there are more people than letters, so that none means anybody."""
    alone: Mapping[str, str] = field(default_factory=dict)
    """At the settle, who has a lane alone: their ids, by the lane's."""

    @property
    def of_people(self) -> bool:
        """Whether letters mean people, not lanes."""
        return means_people(self.phase, self.counts_by)


def means_people(phase: KeyPhase, counts_by: CountsBy) -> bool:
    """Whether letters mean people: before a start, after the last piece, after a warm-up."""
    return phase in ("board", "last") or (phase == "over" and counts_by == "nothing")


class KeyState(Struct, frozen=True):
    """What the keys have left behind. Moments are milliseconds of real time."""

    pending: str = ""
    since: int = 0
    """When the last sign of what is pending was typed."""
    refused: bool = False
    """Whether the guard refused a sign of what is pending: then none of it counts."""
    struck: Mapping[str, int] = field(default_factory=dict)
    """The latest stroke of each key, as far as it can still be repeating."""
    last: str = ""
    """The key that was struck last."""
    ended_by: str = ""
    """The key that ended the last entry typed, while no other key was struck."""
    emptied: int | None = None
    """When backspace, or waiting too long, emptied what was pending."""
    undo_asked: int | None = None
    """When `=` was typed for the first time."""

    @property
    def lapses_at(self) -> int | None:
        """When what is pending lapses; None if nothing is pending."""
        return self.since + LAPSE_MS if self.pending else None


class Pressed(Struct, frozen=True):
    """What one stroke did: the state after it, what it means, and what to tell the coach."""

    state: KeyState
    command: Command | None = None
    notice: str | None = None


def pending_shown(state: KeyState) -> str:
    """What is pending, as it stands large on the screen: as typed, letters as the keys show.

    Nothing that won't count stands there.
    """
    return "" if state.refused else state.pending.upper()


def lapse(state: KeyState, real: int) -> tuple[KeyState, str | None]:
    """Drop what has been pending for 4 s without another sign, and say so.

    `press` does this itself first, so the meaning of a stroke never hangs on a late timer.
    """
    lapses_at = state.lapses_at
    if lapses_at is None or real < lapses_at:
        return state, None
    dropped = replace(state, pending="", refused=False, emptied=lapses_at)
    if state.refused:
        return dropped, None  # that it doesn't count was said at once
    letter = "" if LETTERS & set(state.pending) else " with its letter"
    return dropped, f"{pending_shown(state)} lapsed after 4 s: type it again{letter}"
