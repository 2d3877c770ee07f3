"""A trick turned off and on again while the program runs, so that the same process is compared."""

import signal
from collections.abc import Callable, Mapping
from importlib import import_module
from pathlib import Path
from typing import Any

from benchmarks.tricks import keeping, switches

OFF = "off.txt"
"""In the folder: the name of what is turned off, or nothing."""
TURNED = ("only what changed sent", "rows handed over as kept", "kept:")
"""What can be turned in a program that runs, by how the names begin."""


def turn_when_told(folder: Path, seen: Mapping[str, Callable[[], object]]) -> dict[str, Any]:
    """On SIGUSR2 what `OFF` names is turned off and all else on; what tells which one that is."""
    turn_off = keeping.keep_in_turns()
    undo: list[Callable[[], object]] = []
    now = ""

    def turn(*_: object) -> None:
        nonlocal now
        while undo:
            undo.pop()()
        now = (folder / OFF).read_text("utf-8")
        kind, colon, name = now.partition(":")
        turn_off(name)
        if kind and not colon:
            switch = switches.SWITCHES[kind]
            undo.extend(_done(switch, import_module(switch.module)))

    signal.signal(signal.SIGUSR2, turn)
    return {**seen, "off": lambda: now}


def _done(switch: switches.Switch, module: Any) -> list[Callable[[], object]]:
    """Switch it off; what puts back all that this changed in the module's classes."""
    classes = [one for one in vars(module).values() if isinstance(one, type)]
    before = [(one, dict(vars(one))) for one in classes]
    switch.do(module)
    return [
        (lambda one=one, name=name, value=value: setattr(one, name, value))  # type: ignore[misc]
        for one, members in before
        for name, value in members.items()
        if vars(one).get(name) is not value
    ]
