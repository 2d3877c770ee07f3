"""Where the command line shows a screen: the app is set up and run, its last words are printed."""

import os
from collections.abc import Callable, Sequence
from contextlib import nullcontext
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.clock.source import stamp_now
from classclock.club.letters_file import dots_for
from classclock.live.session import Session
from classclock.machine.said_at_last import say_at_last
from classclock.machine.terminal_kinds import kind_answered, kind_from
from classclock.machine.terminal_query import asked
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import look_for

# A key waits longest for the next repaint. Textual reads this once, as it is imported.
os.environ.setdefault("TEXTUAL_FPS", "240")

if TYPE_CHECKING:
    from classclock.drafts.plan_being_written import PlanOnDisk
    from classclock.screens.app import ClassclockApp, Flow
    from classclock.screens.live.background_work import Autopilot


Serves = tuple[str, int | None] | None
"""At which address and port a class has its page from the start; None: on asking."""


def show_home(folder: Path, club: Club) -> int:
    """Choose a plan, say who is here, run the class."""

    def load() -> "Flow":
        from classclock.screens.flows import home_then_class

        return lambda app: home_then_class(app, folder=folder, club=club)

    return _run(club, folder, load)


def show_who(
    plan_file: PlanFile, folder: Path, club: Club, *, speed: int = 1, serves: Serves = None
) -> int:
    """Say who is here, run the class."""

    def load() -> "Flow":
        from classclock.screens.flows import who_then_class

        async def flow(app: "ClassclockApp") -> str:
            said = await who_then_class(app, plan_file, folder=folder, club=club, speed=speed)
            return said or ""

        return flow

    return _run(club, folder, load, serves)


def show_clock(
    folder: Path,
    club: Club,
    *,
    speed: int = 1,
    line: str = "",
    names: Sequence[str] = (),
    serves: Serves = None,
) -> int:
    """Say which clock, run a class without a plan. `line` is what is typed already."""

    def load() -> "Flow":
        from classclock.screens.flows import clock_then_class

        return lambda app: clock_then_class(
            app, folder=folder, club=club, speed=speed, line=line, names=names
        )

    return _run(club, folder, load, serves)


def show_editor(plan: "PlanOnDisk | None", folder: Path, club: Club) -> int:
    """Write a plan; None asks first what a new one is made from."""

    def load() -> "Flow":
        from classclock.screens.flows import write_plan

        return lambda app: write_plan(app, plan, folder=folder, club=club)

    return _run(club, folder, load)


def show_class(
    session: Session,
    *,
    notice: str = "",
    autopilot: "Autopilot | None" = None,
    serves: Serves = None,
) -> int:
    """Run a class that was opened or rejoined."""

    def load() -> "Flow":
        from classclock.screens.class_flow import run_class

        return lambda app: run_class(app, session, notice=notice, autopilot=autopilot)

    return _run(session.club, session.settings.parent, load, serves)


def show_wall(folder: Path, club: Club) -> int:
    """The room's wall of whatever class runs in the folder."""

    def load() -> "Flow":
        from classclock.screens.flows import follow_classes

        return lambda app: follow_classes(app, folder=folder, club=club)

    return _run(club, folder, load)


def _run(club: Club, folder: Path, load: "Callable[[], Flow]", serves: Serves = None) -> int:
    """Ask the terminal what it is where that isn't known, and load the screens meanwhile."""
    kind = kind_from(os.environ)
    asks = kind.asks and club.tv.letters == "auto"
    with asked(stamp_now) if asks else nullcontext() as query:
        from classclock.screens.app import ClassclockApp

        flow = load()
        if query is not None:
            kind = kind_answered(kind, query.version())
        app = ClassclockApp(look_for(club, dots_for(club, folder, kind)), flow, kind, query)
        app.serves = serves
        said = app.run()
    if said:
        say_at_last(*said.split("\n"))  # once the terminal is its old self again
    return app.return_code or 0
