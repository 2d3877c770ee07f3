"""The key language: from keystrokes, their moments and the segment's phase to commands.

`press` is pure: it takes the state and gives a new one. What is typed before a letter is read in
`forms.py`, before enter in `answers.py`; keys that mean something alone are in `lone_keys.py`. The
same rules in a coach's words are in `key_help.py`; what the keys mean in a class at a moment says
`keys_now.py`.
"""

from collections.abc import Mapping

from msgspec import Struct, field
from msgspec.structs import replace

from classclock.plan.formats.counting import CountsBy
from classclock.plan.option_menu import MOST_OF_ONE_DIGIT
from classclock.tally.commands import (
    BringBack,
    ChangeOption,
    ChooseOption,
    Command,
    SayGone,
    Select,
    StopLane,
    TakeBack,
    UndoHold,
)
from classclock.tally.keys.answers import (
    STOPPED_OR_LEAVES,
    read_answer,
    read_newest,
    waits_for_a_letter,
)
from classclock.tally.keys.forms import LONGEST, fits, read_about, read_form, why_not_so_far
from classclock.tally.keys.lone_keys import KeyPhase, lone_keys
from classclock.tally.keys.strokes import DIGITS, LETTERS, MARKS, SIGNS, Stroke, key_name
from classclock.tally.scores.questions import ScoreQuestion

__all__ = ["KeyContext", "KeyState", "Pressed", "Stroke", "lapse", "pending_shown", "press"]

# A keyboard repeats after 500 to 660 ms, then every 33 to 40 ms (common practice, no source).
GUARD_MS = 1_200
STEP_GUARD_MS = 100
"""Between segments a step too many is seen, and taken back by the other arrow."""
HELD_MS = 100
"""No thumb strikes one key twice in so short a time, only a keyboard does."""
ONE_READ_MS = 10
"""Strokes that come closer together were typed at once, as a taps file types them."""
LAPSE_MS = 4_000
EMPTIED_MS = 700
UNDO_HOLD_MS = 3_000

_NOT_STARTED = "nothing is counted before the start: enter starts"
_NOT_SCORED = "nothing is counted here: enter goes on"
_CLASS_OVER = "the class is over: ctrl+q leaves, up goes back to its last segment"
_TOO_MANY = "more than 26 are here, and letters come twice: ctrl+p has a list of everybody"


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


def press(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """What this stroke means here. Never raises, whatever is typed."""
    state, lapsed = lapse(state, stroke.real)
    pressed = _press(state, stroke, context)
    if pressed.state.refused and not pressed.state.pending:
        pressed = replace(pressed, state=replace(pressed.state, refused=False))
    if lapsed:
        notice = f"{lapsed}; {pressed.notice}" if pressed.notice else lapsed
        return replace(pressed, notice=notice)
    return pressed


def _press(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    key = stroke.key
    if key == "<backspace>" and state.pending not in ("", "-"):
        return _rub_out(state, stroke)
    if key in LETTERS:
        pressed = _letter(state, stroke, context)
    elif key in DIGITS or (key in MARKS and (state.pending or key != "+")):
        pressed = _sign(state, stroke, context)
    elif key == "<backspace>":
        pressed = _backspace(state, stroke, context)
    elif key == "<escape>":
        pressed = Pressed(replace(state, pending=""))
    elif key == "=":
        pressed = _undo_hold(state, stroke, context)
    elif key in SIGNS:
        pressed = _lone(state, stroke, context)
    else:
        return Pressed(state, notice=_unknown(key))
    return replace(pressed, state=_remember(pressed, stroke))


def _remember(pressed: Pressed, stroke: Stroke) -> KeyState:
    """Note the stroke for the guard, ignored strokes too: a held key stays guarded."""
    state, key = pressed.state, stroke.key
    struck = {k: real for k, real in state.struck.items() if stroke.real - real <= GUARD_MS}
    struck[key] = stroke.real
    ended_by = key if pressed.command is not None or key == state.ended_by else ""
    return replace(state, struck=struck, last=key, ended_by=ended_by)


def _repeats(state: KeyState, stroke: Stroke, guard: int = GUARD_MS) -> bool:
    before = state.struck.get(stroke.key)
    return before is not None and stroke.real - before <= guard


def _ignored(state: KeyState, stroke: Stroke) -> Pressed:
    return Pressed(state, notice=f"{key_name(stroke.key)} again within 1.2 s: not counted")


def _held_down(state: KeyState, stroke: Stroke) -> bool:
    """Whether this is surely the keyboard's own repeat, and begins nothing."""
    before = state.struck.get(stroke.key)
    return before is not None and ONE_READ_MS <= stroke.real - before <= HELD_MS


def _dropped(state: KeyState, typed: str) -> Pressed:
    """A number counts whole or not at all: the guard refused its first sign."""
    notice = f"{typed} isn't counted, {typed[0]} came again within 1.2 s: type it again"
    return Pressed(replace(state, pending=""), notice=notice)


def _letter(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    key, pending = stroke.key, state.pending
    lane = context.keys.get(key)
    if context.too_many:
        return Pressed(replace(state, pending=""), notice=_TOO_MANY)
    if lane is None:
        shown = pending_shown(state)
        waits = f"; {shown} still waits for a letter" if shown else ""
        return Pressed(state, notice=f"nobody has the key {key}{waits}")
    if state.refused:
        return _dropped(state, f"{pending}{key}")
    to_come = context.phase == "board"
    begins = pending in (">", ":") and (to_come or not context.of_people)
    if begins or (pending == "." and context.phase == "over" and not context.of_people):
        return Pressed(replace(state, pending=pending + key, since=stroke.real))
    if context.of_people:
        return _about(state, key, context)
    if not pending and context.phase == "over":
        return Pressed(state, Select(lane))
    if not pending and _repeats(state, stroke):
        return _ignored(state, stroke)
    meant = read_form(pending, key, context.keys, loads=context.counts_by == "load")
    if isinstance(meant, str):
        return Pressed(state, notice=meant)
    return Pressed(replace(state, pending=""), meant)


def _nothing_counts(phase: KeyPhase) -> str:
    """Why nothing can be counted where letters mean people."""
    if phase == "board":
        return _NOT_STARTED
    return _CLASS_OVER if phase == "last" else _NOT_SCORED


def _about(state: KeyState, key: str, context: KeyContext) -> Pressed:
    """Somebody's letter between pieces: what it says is done with, whatever came of it."""
    to_come = context.phase == "board"
    said = read_about(state.pending, key, context.keys, to_come=to_come)
    state = replace(state, pending="")
    if said is None:
        return Pressed(state, notice=_nothing_counts(context.phase))
    if isinstance(said, str):
        return Pressed(state, notice=said)
    return Pressed(state, said)


def _sign(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """A digit or a mark: it is added to what is pending, or ends `:n2`."""
    key, pending = stroke.key, state.pending
    if key in DIGITS and pending == ":":
        notice = f":{key} is dropped: the letter comes first, as in :n{key}"
        return Pressed(replace(state, pending=""), notice=notice)
    asks = pending[:1] in (":", ".") and pending[1:2] in LETTERS and set(pending[2:]) <= set(DIGITS)
    if key in DIGITS and asks:
        of_a_letter = _option if pending[0] == ":" else _stopped_or_leaves
        return of_a_letter(state, stroke, context)
    if key in DIGITS and key == state.ended_by and _repeats(state, stroke):
        if pending == (key if state.refused else "") and _held_down(state, stroke):
            return _ignored(replace(state, pending=""), stroke)
        if not pending:
            begun = replace(state, pending=key, since=stroke.real, refused=True)
            return _ignored(begun, stroke)
    if key in MARKS and pending.endswith(key):
        return Pressed(state)  # a mark held down stays one mark
    loads = context.counts_by == "load"
    text = pending + key
    if fits(text, loads=loads):
        return Pressed(replace(state, pending=text, since=stroke.real))
    if not pending:
        return Pressed(state, notice=_unknown(key))
    notice = why_not_so_far(text, loads=loads)
    if len(pending) > LONGEST:
        return Pressed(state, notice=notice)
    return Pressed(replace(state, pending=text, since=stroke.real), notice=notice)


def _stopped_or_leaves(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """After a piece `.n` asks which of the two: who stopped in it may be there for the next."""
    key, answer = state.pending[1], stroke.key
    lane = context.keys.get(key)
    if lane is None:
        return Pressed(state, notice=f"nobody has the key {key} any more: escape drops it")
    if answer not in "12":
        return Pressed(state, notice=STOPPED_OR_LEAVES)
    if answer == "1":
        return Pressed(replace(state, pending=""), StopLane(lane))
    if lane not in context.alone:
        notice = "several share that lane: on the next board, . and the letter of who leaves"
        return Pressed(replace(state, pending=""), notice=notice)
    return Pressed(replace(state, pending=""), SayGone(context.alone[lane]))


def _option(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """A digit of `:n2`, or of `:n02` where there are more options than digits."""
    key, digits = state.pending[1], state.pending[2:] + stroke.key
    whose = context.keys.get(key)
    if whose is None:
        notice = f"nobody has the key {key} any more: :{key}{digits} is dropped"
        return Pressed(replace(state, pending=""), notice=notice)
    if len(digits) < (2 if context.options > MOST_OF_ONE_DIGIT else 1):
        return Pressed(replace(state, pending=f":{key}{digits}", since=stroke.real))
    build = ChooseOption if context.phase == "board" else ChangeOption
    return Pressed(replace(state, pending=""), build(whose, int(digits)))


def _rub_out(state: KeyState, stroke: Stroke) -> Pressed:
    """Backspace takes off the last sign. It is no call, so the guard doesn't start."""
    rest = state.pending[:-1]
    if rest:
        return Pressed(replace(state, pending=rest, since=stroke.real))
    return Pressed(replace(state, pending="", emptied=stroke.real))


def _backspace(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    if context.phase == "board":
        return Pressed(replace(state, pending=""), notice=_NOT_STARTED)
    if state.pending == "-":
        return Pressed(replace(state, pending=""), BringBack())
    if _repeats(state, stroke):
        return _ignored(state, stroke)
    if state.emptied is not None and stroke.real - state.emptied < EMPTIED_MS:
        return Pressed(state, notice="what was typed is gone; no entry was taken back")
    return Pressed(state, TakeBack())


def _undo_hold(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    if context.phase != "held":
        notice = "the clock isn't held: space holds it"
        return Pressed(replace(state, undo_asked=None), notice=notice)
    if _repeats(state, stroke):
        notice = "= again within 1.2 s: not counted; wait a second, then = once more"
        return Pressed(state, notice=notice)
    if state.undo_asked is not None and stroke.real - state.undo_asked <= UNDO_HOLD_MS:
        return Pressed(replace(state, undo_asked=None), UndoHold())
    notice = "= once more, 1.2 to 3 s from now, resumes as if the clock had never been held"
    return Pressed(replace(state, undo_asked=stroke.real), notice=notice)


def _lone(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """A key that means something by itself, whatever is pending; only enter ends that."""
    key = stroke.key
    if key == "<enter>" and (state.pending or state.refused):
        return _ended_by_enter(state, context)
    steps = key in ("<up>", "<down>") and context.phase not in ("running", "held")
    if (key == "?" and not _held_down(state, stroke)) or _next_answer(state, stroke, context):
        pass  # help is closed by the key that opened it, however soon
    elif _repeats(state, stroke, STEP_GUARD_MS if steps else GUARD_MS):
        return Pressed(state) if steps else _ignored(state, stroke)
    if key == "<space>":
        state = replace(state, undo_asked=None)
    meant = lone_keys(
        context.phase, can_change_time=context.can_change_time, all_in=context.all_in
    )[key]
    if isinstance(meant, str):
        return Pressed(state, notice=meant)
    return Pressed(state, meant)


def _next_answer(state: KeyState, stroke: Stroke, context: KeyContext) -> bool:
    """At the settle enter goes from one question to the next; held down it comes alone."""
    return stroke.key == "<enter>" and context.phase == "over" and state.last != "<enter>"


def _ended_by_enter(state: KeyState, context: KeyContext) -> Pressed:
    """What is pending needs no letter, or waits for one."""
    if state.refused:
        return _dropped(state, state.pending)
    if (newest := read_newest(state.pending)) is not None:
        return _newest_taken_back(state, newest, context)
    if context.phase != "over":
        return Pressed(state, notice=waits_for_a_letter(state.pending))
    meant = read_answer(state.pending, context.asked, loads=context.counts_by == "load")
    if isinstance(meant, str):
        return Pressed(state, notice=meant)
    return Pressed(replace(state, pending=""), meant)


def _newest_taken_back(state: KeyState, meant: TakeBack, context: KeyContext) -> Pressed:
    state = replace(state, pending="")
    if context.phase in ("board", "count-in"):
        return Pressed(state, notice=_NOT_STARTED)
    return Pressed(state, meant)


def _unknown(key: str) -> str | None:
    if len(key) != 1 or not key.isprintable():
        return None
    if key.isalpha():
        return f"nobody has the key {key}: keys are the letters a to z"
    return f"{key} means nothing here: ? shows the keys"
