"""One class, from the flags on its loads to the last words."""

import asyncio
from functools import partial
from typing import TYPE_CHECKING

from classclock.screens.live.class_screen import ClassScreen
from classclock.tally.load_flags import open_flags
from classclock.wall.on_disk_words import last_words

if TYPE_CHECKING:
    from classclock.live.session import Session
    from classclock.screens.app import ClassclockApp
    from classclock.screens.live.background_work import Autopilot


async def run_class(
    app: "ClassclockApp",
    session: "Session",
    *,
    notice: str = "",
    autopilot: "Autopilot | None" = None,
) -> str:
    """One class from its board on, loads that are to be looked at before it."""
    if autopilot is None:
        app.ended_words = partial(_ended_words, session)
    try:
        if await _flags_read(app, session):
            await app.push_screen_wait(
                ClassScreen(
                    session, app.look, notice=notice, autopilot=autopilot, serves=app.serves
                )
            )
    finally:
        session.close()
    if autopilot is not None:
        return "the sample class is over: nothing of it is kept"
    said = last_words(session)
    app.status = 0 if said.all_on_disk else 1
    return "\n".join(said.lines)


def _ended_words(session: "Session") -> str:
    """Of a class whose program a signal ends."""
    session.close()
    said = last_words(session)
    if said.all_on_disk:
        return "ended from outside: classclock resume goes on with a class"
    return "\n".join(("ended from outside", *said.lines))


async def _flags_read(app: "ClassclockApp", session: "Session") -> bool:
    """Show the flags on loads while no clock runs; whether the class goes on."""
    live = session.live
    if live.phase != "board":
        return True
    if live.loads_unread:
        await asyncio.to_thread(live.plan_loads)
    if not open_flags(live.record, live.loads, live.record.to_come):
        return True
    from classclock.screens.flags.flags_screen import FlagsScreen  # noqa: PLC0415  few classes have any

    return await app.push_screen_wait(
        FlagsScreen(app.look, live, mirrored=session.club.tv.mirrored)
    )
