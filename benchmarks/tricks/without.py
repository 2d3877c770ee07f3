"""The program without a trick: `python -m benchmarks.tricks.without TRICK FOLDER run ...`.

TRICK is a name in `switches.py`; `imports:` or `kept:` with what the names begin with that are
meant; `count`, `turning` or `nothing`. In FOLDER are the inner imports, and on SIGUSR1 what was
seen inside goes there.
"""

import json
import runpy
import signal
import sys
from collections.abc import Callable
from pathlib import Path
from typing import Any

from benchmarks.tricks.after_import import after_import
from benchmarks.tricks.inner_imports import at_the_top
from benchmarks.tricks.keeping import count, keep_no
from benchmarks.tricks.switches import switch_off
from benchmarks.tricks.turning import turn_when_told

INNER, SEEN = "inner_imports.json", "seen.json"
CLOCK_EVENTS = "classclock.screens.live.clock_events"


def main() -> None:
    trick, folder, *arguments = sys.argv[1:]
    late: list[int] = []
    seen: dict[str, Callable[[], object]] = {"late": lambda: late}
    after_import(CLOCK_EVENTS, lambda module: note_late(module, late))
    kind, _, name = trick.partition(":")
    if kind == "imports":
        inner = json.loads((Path(folder) / INNER).read_text("utf-8"))
        at_the_top({one: of for one, of in inner.items() if one.startswith(f"classclock.{name}")})
    elif kind == "kept":
        keep_no(name)
    elif kind == "count":
        seen["kept"] = count()
    elif kind == "turning":
        seen = turn_when_told(Path(folder), seen)
    elif kind != "nothing":
        switch_off(kind)
    signal.signal(signal.SIGUSR1, lambda *_: _tell(Path(folder), seen))
    sys.argv = ["classclock", *arguments]
    runpy.run_module("classclock", run_name="__main__", alter_sys=True)


def note_late(clock_events: Any, late: list[int]) -> None:
    """How many milliseconds after their second the clock's digits are painted."""
    on_tick = clock_events.ClockEvents.on_tick

    def noted(events: Any, reading: Any) -> None:
        live = events.session.live

        def note() -> None:
            late.append(live.record.sheet.clock.elapsed(live.clock.now()) % 1000)

        events.display.views.call_after_refresh(note)
        on_tick(events, reading)

    clock_events.ClockEvents.on_tick = noted


def _tell(folder: Path, seen: dict[str, Callable[[], object]]) -> None:
    part = folder / f"{SEEN}.part"
    part.write_text(json.dumps({name: tell() for name, tell in seen.items()}), "utf-8")
    part.rename(folder / SEEN)


if __name__ == "__main__":
    main()
