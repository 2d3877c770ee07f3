"""What goes on beside the screen while a class is open: the clock, the saving, the autopilot."""

import asyncio
from collections.abc import Callable
from typing import Protocol

from classclock.clock.engine import ClockEngine, Listener
from classclock.clock.source import WoundSource
from classclock.live.session import Session
from classclock.machine.awake import Awake
from classclock.screens.live.memory import Memory
from classclock.screens.live.saver import Saver


class Autopilot(Protocol):
    """Types by itself, as the demo does."""

    async def run(self, press: Callable[[str], None]) -> None: ...


class ClassTasks:
    def __init__(
        self,
        session: Session,
        listener: Listener,
        *,
        saved: Callable[[], None],
        remembered: Callable[[str], None],
        awake: Awake | None,
    ) -> None:
        """`saved` is called after each saving; `awake`, if given, keeps the screen on.

        `remembered` is called after each reading of the memory, with what was wrong in words.
        """
        self._session = session
        self._awake = awake
        self.engine = ClockEngine(session.live.clock, session.view, listener)
        self.saver = Saver(session.save, saved)
        self.memory = Memory(session.remember, remembered)
        self._tasks: list[asyncio.Task[None]] = []

    def start(
        self, *, wound: Callable[[], None], press: Callable[[str], None], pilot: Autopilot | None
    ) -> None:
        """`wound` is called when time that is wound by hand has jumped."""
        session = self._session
        session.speaker.start()
        if self._awake is not None:
            self._awake.start()
        if isinstance(session.source, WoundSource):
            session.source.on_jump = wound
        runs = [self.engine.run(), self.saver.run(), self.memory.run()]
        if pilot is not None:
            runs.append(pilot.run(press))
        self._tasks = [asyncio.create_task(run) for run in runs]

    def stop(self) -> None:
        if self._awake is not None:
            self._awake.stop()
        for task in self._tasks:
            task.cancel()
