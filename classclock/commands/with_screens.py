"""The commands that show a screen; Textual takes its time, and is loaded when all is in order."""

import argparse
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club.folder import journals
from classclock.club.plan_files import plan_path
from classclock.commands import headless
from classclock.commands.asked_club import asked_club
from classclock.commands.headless import FINDINGS, say_wrong

if TYPE_CHECKING:
    from classclock.live.session import Session
    from classclock.screens.live.class_tasks import Autopilot


def home(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.screens.start import show_home  # noqa: PLC0415  textual takes its time

    return show_home(folder, club)


def run(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    plan_file = headless.plan_file(asked.plan, club.unit)
    if plan_file is None:
        return FINDINGS
    from classclock.book.asking.people_reading import in_files, people_called  # noqa: PLC0415
    from classclock.clock.source import time_source  # noqa: PLC0415
    from classclock.club.movements import filled_in  # noqa: PLC0415
    from classclock.live.session_opening import open_session  # noqa: PLC0415

    if not asked.athletes:
        from classclock.screens.start import show_who  # noqa: PLC0415  textual takes its time

        return show_who(plan_file, folder, club, speed=asked.speed)
    plan_file, trouble = filled_in(plan_file, folder)
    source = time_source(asked.speed)
    ends = source.wall() + timedelta(milliseconds=club.class_length)
    session = open_session(
        plan_file,
        people_called(asked.athletes, in_files(folder)),
        folder=folder,
        club=club,
        source=source,
        ends=ends.isoformat(timespec="seconds"),
        speed=asked.speed,
    )
    session.left_out = trouble
    return _show_class(session)


def edit(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.drafts.plan_being_written import open_plan  # noqa: PLC0415  one command needs it

    path = plan_path(asked.plan)
    try:
        plan = open_plan(path)
    except ValueError as error:
        say_wrong(f"{path}: {error}")
        return FINDINGS
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual takes its time

    return show_editor(plan, folder, club)


def new(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    plan = None
    if asked.source is not None:
        from classclock.drafts.new_plan_list import begin_named  # noqa: PLC0415  the same

        try:
            plan = begin_named(asked.source, folder)
        except ValueError as error:
            say_wrong(f"{asked.source}: {error}")
            return FINDINGS
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual takes its time

    return show_editor(plan, folder, club)


def demo(asked: argparse.Namespace) -> int:
    from classclock.clock.source import time_source  # noqa: PLC0415
    from classclock.demo.sample_class import demo_class  # noqa: PLC0415

    session, athletes = demo_class(
        seed=asked.seed, source=time_source(asked.speed), speed=asked.speed
    )
    return _show_class(session, autopilot=athletes)


def resume(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.book.files.unfinished import unfinished  # noqa: PLC0415
    from classclock.clock.source import local_now  # noqa: PLC0415

    if asked.journal:
        path = Path(asked.journal)
    elif cut_off := unfinished(journals(folder), local_now()):
        path = cut_off[0].path
    else:
        say_wrong(f"no class was cut off in {journals(folder)}: classclock starts one")
        return FINDINGS
    from classclock.book.files.journal import JournalDamagedError  # noqa: PLC0415
    from classclock.book.files.journal_writer import JournalInUseError  # noqa: PLC0415
    from classclock.live.session_opening import rejoin_session  # noqa: PLC0415

    try:
        session, journal = rejoin_session(path, folder=folder, club=club)
    except (JournalDamagedError, JournalInUseError, ValueError) as error:
        say_wrong(str(error))
        return FINDINGS
    except OSError as error:
        say_wrong(f"{path}: this journal can't be read ({error.strerror})")
        return FINDINGS
    torn = "the last line was torn and is left out; all before it is here"
    return _show_class(session, notice=torn if journal.torn else "rejoined")


def _show_class(
    session: "Session", *, notice: str = "", autopilot: "Autopilot | None" = None
) -> int:
    from classclock.screens.start import show_class  # noqa: PLC0415  textual takes its time

    return show_class(session, notice=notice, autopilot=autopilot)
