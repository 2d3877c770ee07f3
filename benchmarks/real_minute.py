"""A minute by the engine against the system's own clock.

A stopwatch may be off by 0.02 % of the interval, 12 ms in a minute (NIST SOP 24, 2019, quoting
NIST HB 105-5). If somebody sets the system's clock in that minute the figure means nothing.
"""

import asyncio
import datetime as dt

from benchmarks.figure import Figure
from classclock.clock.class_clock import ClassClock
from classclock.clock.engine import ClockEngine, EngineView, SoundAhead
from classclock.clock.running import RunningTime
from classclock.clock.source import MachineSource, local_now
from classclock.clock.timeline import Reading
from classclock.plan.formats.timelines import timeline
from classclock.plan.reading.plan_reading import parse_plan


class Witness:
    """Looks at the system's clock when the segment begins and when it is over."""

    def __init__(self) -> None:
        self.began: dt.datetime | None = None
        self.over: dt.datetime | None = None
        self.ended = asyncio.Event()

    def on_tick(self, reading: Reading) -> None:
        if self.began is None and reading.elapsed >= 0:
            self.began = local_now()

    def on_cues(self, cues: object) -> None: ...

    def on_sounds(self, sounds: tuple[SoundAhead, ...]) -> None: ...

    def on_silence(self) -> None: ...

    def on_over(self) -> None:
        self.over = local_now()
        self.ended.set()


def real_minute(seconds: int = 60) -> Figure:
    off = asyncio.run(_off(seconds))
    return Figure(f"engine against the system's clock, {seconds} s", off, "ms", most=12)


async def _off(seconds: int) -> float:
    """By how many ms the engine's time differs from the system's, as a coach would see it."""
    text = f'title = "M"\n[[segment]]\nname = "M"\nformat = "countdown"\ntime = "PT{seconds}S"\n'
    plan, findings = parse_plan(text, "minute", "kg")
    assert plan is not None, findings
    source, witness = MachineSource(), Witness()
    clock = ClassClock(source, source.now())
    view = EngineView(RunningTime(clock.now() + 1000), timeline(plan.segment[0]))
    engine = asyncio.create_task(ClockEngine(clock, lambda: view, witness).run())
    await witness.ended.wait()
    engine.cancel()
    assert witness.began is not None
    assert witness.over is not None
    return abs((witness.over - witness.began).total_seconds() - seconds) * 1000
