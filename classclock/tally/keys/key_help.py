"""The keys in a coach's words: one table for the help on the screen and for the handbook."""

from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

from classclock.plan.formats.counting import CountsBy
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.signs import GOAL_MARK, GOAL_MEANS, SIGNS, Doubt, Remark

Group = Literal["counting", "putting right", "clock", "class", "signs"]

_TAP_COUNTS: tuple[CountsBy, ...] = ("rounds", "reps", "load")
_SCORED: tuple[CountsBy, ...] = ("rounds", "intervals", "reps", "load")
_GONE: tuple[KeyPhase, ...] = ("running", "held", "over")
_RUNS: tuple[KeyPhase, ...] = ("running", "held")
_BETWEEN: tuple[KeyPhase, ...] = ("board", "over", "last")
_OF_PEOPLE: tuple[KeyPhase, ...] = ("board", "last")
_BOARD: tuple[KeyPhase, ...] = ("board",)
_LAST: tuple[KeyPhase, ...] = ("last",)
_STANDS: tuple[KeyPhase, ...] = ("board", "held", "over", "last")


class KeyLine(Struct, frozen=True):
    """One line of help. Empty `counts_by` or `phases`: whatever is counted, at any time."""

    group: Group
    keys: str
    """As they are typed, with n for a lane's key."""
    meaning: str
    counts_by: tuple[CountsBy, ...] = ()
    phases: tuple[KeyPhase, ...] = ()


KEY_LINES: tuple[KeyLine, ...] = (
    KeyLine("counting", "n", "a round, a station or the finish for N", ("rounds",), _RUNS),
    KeyLine("counting", "n", "one rep for N", ("reps",), _RUNS),
    KeyLine("counting", "n", "N made the planned load", ("load",), _RUNS),
    KeyLine("counting", "n", "select N, nothing is counted", _SCORED, ("over",)),
    KeyLine("counting", "12n", "N is 12 reps into the round", ("rounds",), _GONE),
    KeyLine("counting", "12n", "N did 12 reps in the latest interval", ("intervals",), _GONE),
    KeyLine("counting", "12n", "N has 12 reps in all", ("reps",), _GONE),
    KeyLine("counting", "82.5n", "N made 82.5", ("load",), _GONE),
    KeyLine("counting", "7+n", "N has done 7 full rounds", ("rounds",), _GONE),
    KeyLine("counting", "7+12n", "N has done 7 full rounds and 12 reps", ("rounds",), _GONE),
    KeyLine("counting", "3:12n", "N did 12 reps in interval 3", ("intervals",), _GONE),
    KeyLine("counting", "12 enter", "12 is the answer to what is asked first", _SCORED, ("over",)),
    KeyLine("counting", "* n", "N has finished now", ("rounds",), _GONE),
    KeyLine("counting", "/ n", "N missed the planned load", ("load",), _GONE),
    KeyLine("counting", "85/n", "N missed 85", ("load",), _GONE),
    KeyLine("counting", ". n", "N stops here", _SCORED, _RUNS),
    KeyLine("counting", ". n 1", "N stopped in it", _SCORED, ("over",)),
    KeyLine("counting", ". n 2", "N leaves now: no lane from here on", _SCORED, ("over",)),
    KeyLine(
        "counting",
        ": n 2",
        "from here N uses option 2 (02 above nine); 0 is as written",
        _SCORED,
        _GONE,
    ),
    KeyLine("putting right", "- n", "take back N's last entry", _SCORED, _GONE),
    KeyLine(
        "putting right",
        "backspace",
        "rub out the last sign; with nothing typed, take back the newest entry",
        _SCORED,
        _GONE,
    ),
    KeyLine("putting right", "- 3 enter", "take back the third newest entry", _SCORED, _GONE),
    KeyLine("putting right", "- enter", "take out what is asked about first", _SCORED, ("over",)),
    KeyLine("putting right", "- backspace", "bring back what was taken back", _SCORED, _GONE),
    KeyLine("putting right", "> n m", "N's last entry was M's", _SCORED, _GONE),
    KeyLine("putting right", "escape", "drop what is typed; it never ends a running piece"),
    KeyLine("clock", "enter", "start", phases=("board",)),
    KeyLine("clock", "space", "call the count-in off", phases=("count-in",)),
    KeyLine("clock", "space", "hold the clock", phases=("running",)),
    KeyLine("clock", "space", "resume", phases=("held",)),
    KeyLine("clock", "= =", "1.2 to 3 s apart: resume as if never held", phases=("held",)),
    KeyLine("clock", "enter", "end the segment here", phases=("held",)),
    KeyLine("clock", "enter", "once all are in: end the piece", _SCORED, ("running",)),
    KeyLine("clock", "ctrl+r", "a false start: begin the piece anew", phases=("held",)),
    KeyLine("clock", "up, down", "a countdown: a minute more, a minute less", phases=_RUNS),
    KeyLine(
        "clock",
        "enter",
        "what is asked first stands; nothing asked: settle, go on",
        phases=("over",),
    ),
    KeyLine("clock", "* enter", "all that is asked stands: settle, go on", _SCORED, ("over",)),
    KeyLine("clock", "up, down", "the segment before, the one after", phases=_BETWEEN),
    KeyLine("clock", "ctrl+r", "this segment once more", phases=_BETWEEN),
    KeyLine("class", ". n", "N has left: no lane from here on", phases=_OF_PEOPLE),
    KeyLine("class", "- n", "N is back", phases=_OF_PEOPLE),
    KeyLine("class", ". n", "N has left: no lane from here on", ("nothing",), ("over",)),
    KeyLine("class", "- n", "N is back", ("nothing",), ("over",)),
    KeyLine(
        "class",
        ": n 2",
        "N uses option 2 (02 above nine) in this piece; 0 is as written",
        _SCORED,
        phases=_BOARD,
    ),
    KeyLine("class", "80n", "N's next set is 80", ("load",), _BOARD),
    KeyLine("class", "3:82.5n", "N's third set is 82.5", ("load",), _BOARD),
    KeyLine("class", "> n m", "N and M swap places in partners or teams", _SCORED, _BOARD),
    KeyLine(
        "class", "7n", "N says how hard the hour was, 0 to 10: the room sees a tick", (), _LAST
    ),
    KeyLine("class", "+", "with nothing typed: add someone who came late"),
    KeyLine("class", "ctrl+p", "who is here: come, gone, names, options, loads", (), _STANDS),
    KeyLine("class", "! or F2", "the emergency card, the clock held"),
    KeyLine("class", "ctrl+e", "a note about the class or somebody, kept off the wall"),
    KeyLine("class", "ctrl+w", "this screen: the coach's own, or the room's wall again"),
    KeyLine("class", "?", "these keys"),
    KeyLine("class", "ctrl+n", "all notices of this class, the newest first"),
    KeyLine("class", "ctrl+q", "leave, ctrl+c too; a class that runs can be rejoined"),
)

_SEEN: Mapping[Doubt | Remark, tuple[tuple[CountsBy, ...], tuple[KeyPhase, ...]]] = {
    "not given": (_SCORED, _GONE),
    "fast": (("rounds",), _GONE),
    "filled in": (("rounds",), _GONE),
    "load": (("load",), ("board", *_GONE)),
    "less": (_SCORED, _GONE),
    "missed one": (("rounds",), _RUNS),
    "turn": (("load",), _RUNS),
    "not all at once": (("load",), ("board",)),
    "option": (_SCORED, ("over",)),
    "corrected": (_SCORED, ("over",)),
    "stopped": (_SCORED, ("over",)),
}
"""In which pieces each sign is seen, and when."""

SIGN_LINES: tuple[KeyLine, ...] = (
    *(
        KeyLine("signs", SIGNS[kind].sign, f"{SIGNS[kind].word}: {SIGNS[kind].meaning}", *seen)
        for kind, seen in _SEEN.items()
    ),
    KeyLine("signs", GOAL_MARK, GOAL_MEANS, ("rounds",), _RUNS),
)
"""What the signs on the screens mean; no keys."""


def key_help(
    counts_by: CountsBy, phase: KeyPhase, lines: tuple[KeyLine, ...] = KEY_LINES
) -> tuple[KeyLine, ...]:
    """The lines that hold now, in the order of the table."""
    return tuple(
        line
        for line in lines
        if (not line.counts_by or counts_by in line.counts_by)
        and (not line.phases or phase in line.phases)
    )
