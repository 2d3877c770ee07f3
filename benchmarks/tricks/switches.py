"""How each trick is switched off, from outside: in a process that is about to run the program.

Nothing of the program is loaded here, or a start would be another one.
"""

import gc
import os
from collections.abc import Mapping
from typing import Any, NamedTuple

from benchmarks.tricks.after_import import Do, after_import

SCREENS = "classclock.screens"
_USUAL = gc.get_threshold()


def _looked_through_at_once(collecting: Any) -> None:
    """As Python does by itself, once the program is loaded."""
    _put(collecting, "little_and_often", lambda: gc.set_threshold(*_USUAL))
    for name in ("before_keys_come", "all_again"):
        _put(collecting, name, lambda: None)


def _looked_through_while_loading(_: object) -> None:
    def as_usual(first: int, *more: int) -> None:
        if more:  # the program's first word on it has none
            set_threshold(first, *more)

    set_threshold = gc.set_threshold
    gc.set_threshold = as_usual


def _at_once(held: Any) -> None:
    _put(held.HeldResize, "wait", lambda *_: 0)


def _sent_whole(painted: Any) -> None:
    def repaint(widget: Any) -> None:
        widget._painted_for = None
        widget.refresh()

    _put(painted.Painted, "repaint", repaint)


def _made_by_textual(painted: Any) -> None:
    del painted.Painted.render_lines


def _having(name: str, value: str) -> Do:
    return lambda _: os.environ.__setitem__(name, value)


def _put(owner: Any, name: str, value: object) -> None:
    getattr(owner, name)  # or it would be switched off no longer, and nobody the wiser
    setattr(owner, name, value)


class Switch(NamedTuple):
    do: Do
    module: str = ""
    """What is to be loaded before; nothing is where it is empty."""


def switch_off(trick: str) -> None:
    """Before the program is loaded."""
    switch = SWITCHES[trick]
    if switch.module:
        after_import(switch.module, switch.do)
    else:
        switch.do(None)


SWITCHES: Mapping[str, Switch] = {
    "collecting in steps": Switch(_looked_through_at_once, "classclock.machine.collecting"),
    "no collecting while loading": Switch(_looked_through_while_loading),
    "no plugins looked for": Switch(_having("PYDANTIC_DISABLE_PLUGINS", "")),
    "240 repaints a second": Switch(_having("TEXTUAL_FPS", "60")),
    "resize held": Switch(_at_once, f"{SCREENS}.canvas.held_resize"),
    "only what changed sent": Switch(_sent_whole, f"{SCREENS}.canvas.painted"),
    "rows handed over as kept": Switch(_made_by_textual, f"{SCREENS}.canvas.painted"),
}
