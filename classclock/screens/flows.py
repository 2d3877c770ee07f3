"""Which screen follows which, from the first to the last words."""

import asyncio
from collections.abc import Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.book.asking.lift_reading import LiftReading, has_lifts
from classclock.book.asking.people_reading import remember_marks
from classclock.book.files.held_file import JournalInUseError
from classclock.book.files.journal import JournalUnreadableError
from classclock.clock.source import time_source
from classclock.club.folder import settings
from classclock.club.letters_file import is_settled
from classclock.club.movements import filled_in
from classclock.club.settings import read_club
from classclock.live.session_opening import open_for, open_session, rejoin_session, rejoined_words
from classclock.plan.formats.segment_base import SegmentBase
from classclock.plan.model import Segment, is_piece
from classclock.plan.open_class import open_class
from classclock.plan.plan_file import PlanFile
from classclock.plan.settings.club import Club
from classclock.screens.app import ClassclockApp
from classclock.screens.class_flow import run_class
from classclock.screens.ways import Ways
from classclock.tally.commands import Start

if TYPE_CHECKING:
    from classclock.drafts.plan_being_written import PlanOnDisk


async def who_then_class(
    app: ClassclockApp,
    plan_file: PlanFile,
    *,
    folder: Path,
    club: Club,
    speed: int,
    at_once: bool = False,
) -> str | None:
    """Who is here, then the class; None where the coach went back.

    `at_once`: its first segment counts in as soon as that is said.
    """
    plan_file, trouble = filled_in(plan_file, folder)
    source = time_source(speed)
    lifts = LiftReading(folder)
    if has_lifts(plan_file.plan):
        # Read while the coach says who is here.
        asyncio.get_running_loop().run_in_executor(None, lifts.history)
    who = Ways(app.look, folder).who(plan_file.plan, club, source.wall())
    came = await app.push_screen_wait(who)
    if came is None:
        return None
    if came.marked:
        asyncio.get_running_loop().run_in_executor(None, remember_marks, folder, came.marked)
    session = open_session(
        plan_file,
        came.people,
        folder=folder,
        club=club,
        source=source,
        ends=came.ends,
        speed=speed,
        lifts=lifts,
    )
    for (segment, person), choice in came.choices.items():
        session.live.choose(person, segment, choice)
    for segment, way in came.shared.items():
        session.live.share_so(segment, way)
    session.left_out = trouble
    if at_once:
        session.live.do(Start())
    return await run_class(app, session)


async def clock_then_class(
    app: ClassclockApp,
    *,
    folder: Path,
    club: Club,
    speed: int,
    line: str = "",
    names: Sequence[str] = (),
) -> str:
    """Which clock, then a class without a plan, of these people. `line` is typed already."""
    while True:
        segment = await app.push_screen_wait(Ways(app.look, folder).clock(line))
        if segment is None:
            return ""
        said = await run_clock(app, segment, folder=folder, club=club, speed=speed, names=names)
        if said is not None:
            return said


async def run_clock(
    app: ClassclockApp,
    segment: Segment,
    *,
    folder: Path,
    club: Club,
    speed: int,
    names: Sequence[str] = (),
) -> str | None:
    """A class that begins with this segment, at once; who is here is asked only to count them."""
    plan_file = open_class(segment)
    if is_piece(segment) and not names:
        return await who_then_class(
            app, plan_file, folder=folder, club=club, speed=speed, at_once=True
        )
    session = open_for(plan_file, names, folder=folder, club=club, speed=speed)
    session.live.do(Start())
    return await run_class(app, session)


async def home_then_class(app: ClassclockApp, *, folder: Path, club: Club) -> str:
    """A plan or a class that was cut off is chosen, until one has been run."""
    if not await _letters_whole(app, folder, club):
        return ""
    ways = Ways(app.look, folder)
    path = settings(folder)
    if not path.exists():
        if not await app.push_screen_wait(ways.first_run()):
            return ""
        club = read_club(path)[0] or club
    while True:
        home = ways.home(club)
        chosen = await app.push_screen_wait(home)
        club = home.club
        if chosen is None:
            return ""
        if isinstance(chosen, Path):
            try:
                session, journal = rejoin_session(chosen, folder=folder, club=club)
            except (JournalUnreadableError, JournalInUseError, OSError, ValueError) as error:
                return f"this class can't be rejoined: {error}"
            notice = rejoined_words(journal, session.live.record)
            return await run_class(app, session, notice=notice)
        if isinstance(chosen, SegmentBase):
            said = await run_clock(app, chosen, folder=folder, club=club, speed=1)
        else:
            said = await who_then_class(app, chosen, folder=folder, club=club, speed=1)
        if said is not None:
            return said


async def _letters_whole(app: ClassclockApp, folder: Path, club: Club) -> bool:
    """Ask which letters this kind of terminal shows, where nobody knows; False: leave."""
    kind = app.kind
    if kind is None or app.look.terminal.dots is None or is_settled(club, folder, kind):
        return True
    dots = await app.push_screen_wait(Ways(app.look, folder).letters(kind.name))
    if dots is not None:
        app.look = app.look.with_dots(dots)
    return dots is not None


async def follow_classes(app: ClassclockApp, *, folder: Path, club: Club) -> str:
    """One class after the other, as others run them, until it is left."""
    from classclock.following.follower import Follower  # noqa: PLC0415  no class needs them
    from classclock.screens.following.following_screen import FollowingScreen  # noqa: PLC0415

    app.ended_words = str  # nothing is lost
    await app.push_screen_wait(FollowingScreen(app.look, Follower(folder, club), folder))
    return ""


async def write_plan(
    app: ClassclockApp, plan: "PlanOnDisk | None", *, folder: Path, club: Club
) -> str:
    """Write a plan; None asks first what a new one is made from."""
    ways = Ways(app.look, folder)
    if plan is None:
        plan = await app.push_screen_wait(ways.new_plan())
    if plan is None:
        return ""
    return await app.push_screen_wait(ways.editor(plan, club))
