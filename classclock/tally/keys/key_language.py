"""The key language: from keystrokes, their moments and the segment's phase to commands.

`press` is pure: it takes the state and gives a new one. Letters are read in `letters.py`, what is
typed before one in `forms.py`, before enter in `answers.py`; keys that mean something alone are in
`lone_keys.py`, held keys in `guard.py`. The same rules in a coach's words are in `key_help.py`;
what the keys mean in a class at a moment says `keys_now.py`.
"""

from msgspec.structs import replace

from classclock.tally.commands import BringBack, TakeBack, UndoHold
from classclock.tally.keys.answers import read_answer, read_newest, waits_for_a_letter
from classclock.tally.keys.forms import LONGEST, fits, why_not_so_far
from classclock.tally.keys.guard import (
    GUARD_MS,
    STEP_GUARD_MS,
    dropped,
    held_down,
    ignored,
    remember,
    repeats,
)
from classclock.tally.keys.key_state import KeyContext, KeyState, Pressed, lapse
from classclock.tally.keys.letters import (
    NOT_STARTED,
    digit_of_a_letter,
    letter,
    waits_for_digits,
)
from classclock.tally.keys.lone_keys import lone_keys
from classclock.tally.keys.strokes import DIGITS, LETTERS, MARKS, SIGNS, Stroke

EMPTIED_MS = 700
UNDO_HOLD_MS = 3_000


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
        pressed = letter(state, stroke, context)
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
    return replace(pressed, state=remember(pressed, stroke))


def _sign(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """A digit or a mark: it is added to what is pending, or ends `:n2`."""
    key, pending = stroke.key, state.pending
    if key in DIGITS and pending == ":":
        notice = f":{key} is dropped: the letter comes first, as in :n{key}"
        return Pressed(replace(state, pending=""), notice=notice)
    if key in DIGITS and waits_for_digits(pending):
        return digit_of_a_letter(state, stroke, context)
    if key in DIGITS and key == state.ended_by and repeats(state, stroke):
        if pending == (key if state.refused else "") and held_down(state, stroke):
            return ignored(replace(state, pending=""), stroke)
        if not pending:
            begun = replace(state, pending=key, since=stroke.real, refused=True)
            return ignored(begun, stroke)
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


def _rub_out(state: KeyState, stroke: Stroke) -> Pressed:
    """Backspace takes off the last sign. It is no call, so the guard doesn't start."""
    rest = state.pending[:-1]
    if rest:
        return Pressed(replace(state, pending=rest, since=stroke.real))
    return Pressed(replace(state, pending="", emptied=stroke.real))


def _backspace(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    if context.phase == "board":
        return Pressed(replace(state, pending=""), notice=NOT_STARTED)
    if state.pending == "-":
        return Pressed(replace(state, pending=""), BringBack())
    if repeats(state, stroke):
        return ignored(state, stroke)
    if state.emptied is not None and stroke.real - state.emptied < EMPTIED_MS:
        return Pressed(state, notice="what was typed is gone; no entry was taken back")
    return Pressed(state, TakeBack())


def _undo_hold(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    if context.phase != "held":
        notice = "the clock isn't held: space holds it"
        return Pressed(replace(state, undo_asked=None), notice=notice)
    if repeats(state, stroke):
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
    if (key == "?" and not held_down(state, stroke)) or _next_answer(state, stroke, context):
        pass  # help is closed by the key that opened it, however soon
    elif repeats(state, stroke, STEP_GUARD_MS if steps else GUARD_MS):
        return Pressed(state) if steps else ignored(state, stroke)
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
        return dropped(state, state.pending)
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
        return Pressed(state, notice=NOT_STARTED)
    return Pressed(state, meant)


def _unknown(key: str) -> str | None:
    if len(key) != 1 or not key.isprintable():
        return None
    if key.isalpha():
        return f"nobody has the key {key}: keys are the letters a to z"
    return f"{key} means nothing here: ? shows the keys"
