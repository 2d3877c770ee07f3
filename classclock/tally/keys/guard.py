"""The guard against keyboards that repeat a key which is held down."""

from msgspec.structs import replace

from classclock.tally.keys.key_state import KeyState, Pressed
from classclock.tally.keys.strokes import Stroke, key_name

# A keyboard repeats after 500 to 660 ms, then every 33 to 40 ms (common practice, no source).
GUARD_MS = 1_200
STEP_GUARD_MS = 100
"""Between segments a step too many is seen, and taken back by the other arrow."""
HELD_MS = 100
"""No thumb strikes one key twice in so short a time, only a keyboard does."""
ONE_READ_MS = 10
"""Strokes that come closer together were typed at once, as a taps file types them."""


def remember(pressed: Pressed, stroke: Stroke) -> KeyState:
    """Note the stroke for the guard, ignored strokes too: a held key stays guarded."""
    state, key = pressed.state, stroke.key
    struck = {k: real for k, real in state.struck.items() if stroke.real - real <= GUARD_MS}
    struck[key] = stroke.real
    ended_by = key if pressed.command is not None or key == state.ended_by else ""
    return replace(state, struck=struck, last=key, ended_by=ended_by)


def repeats(state: KeyState, stroke: Stroke, guard: int = GUARD_MS) -> bool:
    before = state.struck.get(stroke.key)
    return before is not None and stroke.real - before <= guard


def held_down(state: KeyState, stroke: Stroke) -> bool:
    """Whether this is surely the keyboard's own repeat, and begins nothing."""
    before = state.struck.get(stroke.key)
    return before is not None and ONE_READ_MS <= stroke.real - before <= HELD_MS


def ignored(state: KeyState, stroke: Stroke) -> Pressed:
    return Pressed(state, notice=f"{key_name(stroke.key)} again within 1.2 s: not counted")


def dropped(state: KeyState, typed: str) -> Pressed:
    """A number counts whole or not at all: the guard refused its first sign."""
    notice = f"{typed} isn't counted, {typed[0]} came again within 1.2 s: type it again"
    return Pressed(replace(state, pending=""), notice=notice)
