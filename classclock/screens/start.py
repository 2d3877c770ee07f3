"""Where the command line shows a screen: the app is set up and run, its last words are printed."""

import os
from collections.abc import Awaitable, Callable
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.live.session import Session
from classclock.machine.standard_streams import say
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import look_for

# A key waits longest for the next repaint. Textual reads this once, as it is imported.
os.environ.setdefault("TEXTUAL_FPS", "240")

from classclock.machine.collecting import little_and_often
from classclock.screens import flows
from classclock.screens.app import ClassclockApp

if TYPE_CHECKING:
    from classclock.drafts.plan_being_written import PlanOnDisk
    from classclock.screens.live.background_work import Autopilot


def show_home(folder: Path, club: Club) -> int:
    """Choose a plan, say who is here, run the class."""
    return _run(club, lambda app: flows.home_then_class(app, folder=folder, club=club))


def show_who(plan_file: PlanFile, folder: Path, club: Club, *, speed: int = 1) -> int:
    """Say who is here, run the class."""

    async def flow(app: ClassclockApp) -> str:
        said = await flows.who_then_class(app, plan_file, folder=folder, club=club, speed=speed)
        return said or ""

    return _run(club, flow)


def show_editor(plan: "PlanOnDisk | None", folder: Path, club: Club) -> int:
    """Write a plan; None asks first what a new one is made from."""
    return _run(club, lambda app: flows.write_plan(app, plan, folder=folder, club=club))


def show_class(session: Session, *, notice: str = "", autopilot: "Autopilot | None" = None) -> int:
    """Run a class that was opened or rejoined."""
    return _run(
        session.club,
        lambda app: flows.run_class(app, session, notice=notice, autopilot=autopilot),
    )


def _run(club: Club, flow: Callable[[ClassclockApp], Awaitable[str]]) -> int:
    app = ClassclockApp(look_for(club), flow)
    little_and_often()
    said = app.run()
    if said:
        say(*said.split("\n"))  # the last words, once the terminal is its old self again
    return app.return_code or 0
