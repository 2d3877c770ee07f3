"""A letter, alone or behind what is pending, and the digits that belong to it, as in `:n2`."""

from msgspec.structs import replace

from classclock.plan.option_menu import MOST_OF_ONE_DIGIT
from classclock.tally.commands import ChangeOption, ChooseOption, SayGone, Select, StopLane
from classclock.tally.keys.answers import STOPPED_OR_LEAVES
from classclock.tally.keys.forms import read_about, read_form
from classclock.tally.keys.guard import dropped, ignored, repeats
from classclock.tally.keys.key_state import KeyContext, KeyState, Pressed, pending_shown
from classclock.tally.keys.lone_keys import KeyPhase
from classclock.tally.keys.strokes import DIGITS, LETTERS, Stroke

NOT_STARTED = "nothing is counted before the start: enter starts"
_NOT_SCORED = "nothing is counted here: enter goes on"
_CLASS_OVER = "the class is over: ctrl+q leaves, up goes back to its last segment"
_TOO_MANY = "more than 26 are here, and letters come twice: ctrl+p has a list of everybody"


def letter(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    key, pending = stroke.key, state.pending
    lane = context.keys.get(key)
    if context.too_many:
        return Pressed(replace(state, pending=""), notice=_TOO_MANY)
    if lane is None:
        shown = pending_shown(state)
        waits = f"; {shown} still waits for a letter" if shown else ""
        return Pressed(state, notice=f"nobody has the key {key}{waits}")
    if state.refused:
        return dropped(state, f"{pending}{key}")
    to_come = context.phase == "board"
    begins = pending in (">", ":") and (to_come or not context.of_people)
    if begins or (pending == "." and context.phase == "over" and not context.of_people):
        return Pressed(replace(state, pending=pending + key, since=stroke.real))
    if context.of_people:
        return _about(state, key, context)
    if not pending and context.phase == "over":
        return Pressed(state, Select(lane))
    if not pending and repeats(state, stroke):
        return ignored(state, stroke)
    meant = read_form(pending, key, context.keys, loads=context.counts_by == "load")
    if isinstance(meant, str):
        return Pressed(state, notice=meant)
    return Pressed(replace(state, pending=""), meant)


def _nothing_counts(phase: KeyPhase) -> str:
    """Why nothing can be counted where letters mean people."""
    if phase == "board":
        return NOT_STARTED
    return _CLASS_OVER if phase == "last" else _NOT_SCORED


def _about(state: KeyState, key: str, context: KeyContext) -> Pressed:
    """Somebody's letter between pieces: what it says is done with, whatever came of it."""
    to_come = context.phase == "board"
    over = context.phase == "last"
    said = read_about(state.pending, key, context.keys, to_come=to_come, over=over)
    state = replace(state, pending="")
    if said is None:
        return Pressed(state, notice=_nothing_counts(context.phase))
    if isinstance(said, str):
        return Pressed(state, notice=said)
    return Pressed(state, said)


def waits_for_digits(pending: str) -> bool:
    """Whether a digit belongs to the letter before it, as in `:n2`."""
    begun = pending[:1] in (":", ".") and pending[1:2] in LETTERS
    return begun and set(pending[2:]) <= set(DIGITS)


def digit_of_a_letter(state: KeyState, stroke: Stroke, context: KeyContext) -> Pressed:
    """A digit behind a letter: which option, or which of two answers."""
    read = _option if state.pending[0] == ":" else _stopped_or_leaves
    return read(state, stroke, context)


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
