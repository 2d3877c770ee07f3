"""The keys that need no letter after them, and what each does in each phase of a segment."""

from collections.abc import Mapping
from typing import Literal

from classclock.tally.commands import (
    AddLate,
    AddTime,
    CallOff,
    Command,
    EndSegment,
    GoTo,
    HoldClock,
    Leave,
    Next,
    Restart,
    Resume,
    ShowCard,
    ShowKeys,
    ShowNotices,
    ShowPeople,
    Start,
    TurnScreen,
    WriteNote,
)

KeyPhase = Literal["board", "count-in", "running", "held", "late", "over", "last"]
"""`board`: a segment is shown, not started; `late`: it has ended a moment ago, so that a letter is
still a tap; `over`: it has ended and is to be settled; `last`: the class is over."""

_RUNS = "the clock runs: space holds it first"
_CALL_OFF_FIRST = "the count-in runs: space calls it off"

_LATE_CALLS = "late calls still count for a moment: then enter goes on"

_IN_EVERY_PHASE: Mapping[str, Command | str] = {
    "+": AddLate(),
    "<ctrl+e>": WriteNote(),
    "!": ShowCard(),
    "<f2>": ShowCard(),
    "?": ShowKeys(),
    "<ctrl+n>": ShowNotices(),
    "<ctrl+w>": TurnScreen(),
    "<ctrl+q>": Leave(),
    "<ctrl+c>": Leave(),
}
_BETWEEN: Mapping[str, Command | str] = {
    "<ctrl+p>": ShowPeople(),
    "<up>": GoTo(-1),
    "<down>": GoTo(1),
    "<ctrl+r>": GoTo(0),
}
_MORE_TIME: Mapping[str, Command | str] = {"<up>": AddTime(1), "<down>": AddTime(-1)}
_NO_MORE_TIME: Mapping[str, Command | str] = dict.fromkeys(
    ("<up>", "<down>"), "only a countdown gets a minute more or less"
)
_BY_PHASE: Mapping[KeyPhase, Mapping[str, Command | str]] = {
    "board": {"<space>": "nothing runs yet: enter starts", "<enter>": Start(), **_BETWEEN},
    "count-in": {
        "<space>": CallOff(),
        **dict.fromkeys(("<enter>", "<ctrl+r>", "<ctrl+p>", "<up>", "<down>"), _CALL_OFF_FIRST),
    },
    "running": {
        "<space>": HoldClock(),
        "<enter>": _RUNS,
        "<ctrl+r>": _RUNS,
        "<ctrl+p>": "the clock runs: + adds somebody; who is here opens after it, or held",
    },
    "held": {
        "<space>": Resume(),
        "<enter>": EndSegment(),
        "<ctrl+r>": Restart(),
        "<ctrl+p>": ShowPeople(),
    },
    "late": dict.fromkeys(
        ("<space>", "<enter>", "<ctrl+r>", "<ctrl+p>", "<up>", "<down>"), _LATE_CALLS
    ),
    "over": {"<space>": "the segment is over: enter goes on", "<enter>": Next(), **_BETWEEN},
    "last": {"<space>": "the class is over: ctrl+q leaves", "<enter>": Next(), **_BETWEEN},
}


def lone_keys(
    phase: KeyPhase, *, can_change_time: bool, all_in: bool
) -> Mapping[str, Command | str]:
    """What each key means now: a command, or, in words, why it does nothing.

    `all_in`: every lane has finished or stopped, so that enter ends the running piece.
    """
    now = {**_IN_EVERY_PHASE, **_BY_PHASE[phase]}
    if phase in ("running", "held"):
        now |= _MORE_TIME if can_change_time else _NO_MORE_TIME
    if phase == "running" and all_in:
        now["<enter>"] = EndSegment()
    return now
