"""What goes on beside the screen while a class is open: the clock, the files, the autopilot."""

import asyncio
from collections.abc import Callable, Sequence
from contextlib import suppress
from functools import partial
from typing import Protocol

from classclock.clock.engine import ClockEngine
from classclock.clock.source import WoundSource
from classclock.live.session import Session
from classclock.machine.awake import Awake
from classclock.machine.battery import Battery
from classclock.machine.collecting import all_again, before_keys_come
from classclock.screens.live.class_display import ClassDisplay
from classclock.screens.live.clock_events import ClockEvents
from classclock.screens.live.page_serving import PageServing
from classclock.screens.live.telling import Telling
from classclock.screens.live.upkeep import Upkeep
from classclock.screens.live.work_in_thread import WorkInThread
from classclock.tally import events as ev
from classclock.wall.notices.class_notices import ClassNotices

PATIENCE = 3.0
"""Seconds for the disk before a class is left."""


class Autopilot(Protocol):
    """Types by itself, as the demo does."""

    async def run(self, press: Callable[[str], None]) -> None: ...


class BackgroundWork:
    def __init__(
        self,
        session: Session,
        notices: ClassNotices,
        display: ClassDisplay,
        battery: Battery,
        *,
        show: Callable[[], None],
        show_later: Callable[[], object],
        awake: Awake | None,
    ) -> None:
        """`show` shows the whole class, `show_later` once what was shown before is painted.

        `awake`, if given, keeps the screen on.
        """
        self._session, self._notices = session, notices
        self._show, self._awake = show, awake
        self.saving = WorkInThread(session.save, lambda _: show())
        self.reading = WorkInThread(session.remember, self._remembered)
        self.sparing = WorkInThread(session.spare.keep, lambda _: None)
        self.naming = WorkInThread(session.learn_names, lambda _: show())
        self.marking = WorkInThread(session.write_marks, lambda _: None)
        self.telling = Telling(session)
        self.serving = PageServing(session)
        self.upkeep = Upkeep(
            *(session, notices, battery, awake), saving=self.saving, sparing=self.sparing
        )
        listener = ClockEvents(session, notices, display, self.saving, show_later)
        self.engine = ClockEngine(session.live.clock, session.live.view, listener)
        self._loaded = False
        self._tasks: list[asyncio.Task[None]] = []

    def start(
        self,
        look_soon: Callable[[], object],
        *,
        press: Callable[[str], None],
        pilot: Autopilot | None,
    ) -> None:
        """`look_soon` looks after the class, for when time that is wound by hand has jumped."""
        session = self._session
        session.speaker.start()
        if self._awake is not None:
            self._awake.start()
        if isinstance(session.source, WoundSource):
            session.source.on_jump = partial(self._jumped, look_soon)
        works = (self.saving, self.reading, self.sparing, self.naming, self.marking)
        runs = [self.engine.run(), self.telling.run(), *(work.run() for work in works)]
        if pilot is not None:
            runs.append(pilot.run(press))
        self._tasks = [asyncio.create_task(run) for run in runs]

    async def read_ahead(self) -> None:
        """Read what the board says of loads and equipment, where the club has any."""
        session = self._session
        self.sparing.ask()
        if session.live.loads_unread:
            await asyncio.to_thread(session.live.plan_loads)
            self._show()
        if session.club.inventory:
            await asyncio.to_thread(session.learn_equipment)
            self._show()

    async def put_on_disk(self) -> None:
        """Wait for what is being written, and try once more what the disk refused."""
        session = self._session
        with suppress(asyncio.TimeoutError):
            async with asyncio.timeout(PATIENCE):
                await self.saving.finished()
                lacking = session.on_disk.lacking
                if lacking is not None:
                    session.journal.try_again()
                    await asyncio.to_thread(session.journal.settle, PATIENCE)
                if lacking is not None and lacking.results:
                    self.saving.ask()
                    await self.saving.finished()

    def follow(self, events: Sequence[ev.Event]) -> None:
        """Do what these events ask for, once they have happened."""
        if any(isinstance(one, ev.PersonAdded | ev.PersonChanged) for one in events):
            self.reading.ask()
        self.engine.wake()
        if self._session.live.phase in ("board", "over", "closed"):
            self.saving.ask()

    def _jumped(self, look_soon: Callable[[], object]) -> None:
        self.engine.wake()
        look_soon()

    def stop(self) -> None:
        self.serving.stop()
        if self._awake is not None:
            self._awake.stop()
        for task in self._tasks:
            task.cancel()
        self._loaded = True  # what is read later, of a class that is over, freezes nothing
        all_again()

    def _remembered(self, trouble: str) -> None:
        if not self._loaded:  # all that a class needs is loaded now, the database last
            self._loaded = True
            before_keys_come()
        self._notices.must(trouble)
        self.saving.ask()
        self._show()
