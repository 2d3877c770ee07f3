"""A class of three at the keyboard: what comes of the keys that a test types."""

from collections.abc import Callable, Iterable
from typing import Any

import pytest

from classclock.tally.commands import Command
from classclock.tally.keys.key_language import press
from classclock.tally.keys.key_state import KeyContext, KeyState, Pressed
from classclock.tally.keys.strokes import Stroke
from classclock.tally.keys.taps_file import split_signs

KEYS = {"n": "p-noor", "i": "p-ilse", "b": "p-bram"}

Moments = str | Iterable[tuple[int, str]]


def play(typed: Moments, gap: int = 100, **context: Any) -> list[Pressed]:
    """Press keys one by one: text, `gap` ms between its keys, or keys at their own moments."""
    now = KeyContext(**{"keys": KEYS, "phase": "running", "counts_by": "rounds", **context})
    if isinstance(typed, str):
        typed = [(number * gap, sign) for number, sign in enumerate(split_signs(typed))]
    state, came = KeyState(), []
    for real, text in typed:
        for sign in split_signs(text):
            came.append(press(state, Stroke(sign, real, real), now))
            state = came[-1].state
    return came


@pytest.fixture
def commands() -> Callable[..., list[Command]]:
    """What the keys meant."""
    return lambda typed, **context: [
        pressed.command for pressed in play(typed, **context) if pressed.command is not None
    ]


@pytest.fixture
def said() -> Callable[..., str]:
    """What the coach was told at the last key."""
    return lambda typed, **context: play(typed, **context)[-1].notice or ""


@pytest.fixture
def left() -> Callable[..., str]:
    """What is still pending after the last key."""
    return lambda typed, **context: play(typed, **context)[-1].state.pending


@pytest.fixture
def held_down() -> Callable[..., list[tuple[int, str]]]:
    """A key held for some ms: once, again after the keyboard's delay, then at its repeat rate."""

    def strokes(
        sign: str, start: int, length: int, delay: int, every: int
    ) -> list[tuple[int, str]]:
        again = range(start + delay, start + length, every)
        return [(start, sign), *((moment, sign) for moment in again)]

    return strokes
