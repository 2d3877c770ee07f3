"""The command line: what is asked for is looked up, done, and printed.

Exit status 0 for success, 1 for findings, 2 for bad use. Slow imports wait until a command needs
them: `check` loads no screen, `schema` reads no plan.
"""

import argparse
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from datetime import timedelta
from pathlib import Path
from typing import TYPE_CHECKING

from classclock import headless
from classclock.arguments import parser
from classclock.club_folder import club_folder, journals, results
from classclock.headless import FINDINGS, OK, say_wrong
from classclock.plan.club import Club
from classclock.plan.club_reading import read_club

if TYPE_CHECKING:
    from classclock.book.cap_fit import PieceFit
    from classclock.plan.model import Plan
    from classclock.plan.movements import Library


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command line; its exit status."""
    said = sys.argv[1:] if arguments is None else list(arguments)
    known = said[0] if said and said[0] in COMMANDS else None
    asked = parser(known).parse_args(said)
    try:
        return COMMANDS[asked.command](asked)
    except BrokenPipeError:
        # Whoever read our output has stopped reading: that is no fault of ours.
        os.dup2(os.open(os.devnull, os.O_WRONLY), sys.stdout.fileno())
        return OK


# -- commands with a screen ------------------------------------------------------


def _home(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.screens.start import show_home  # noqa: PLC0415  textual takes its time

    return show_home(folder, club)


def _run(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    plan_file = headless.plan_file(asked.plan, club.unit)
    if plan_file is None:
        return FINDINGS
    from classclock.clock.source import time_source  # noqa: PLC0415
    from classclock.club_movements import filled_in  # noqa: PLC0415
    from classclock.people_reading import in_files, people_called  # noqa: PLC0415
    from classclock.screens.start import show_class, show_who  # noqa: PLC0415
    from classclock.session import open_session  # noqa: PLC0415

    if not asked.athletes:
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
    return show_class(session)


def _edit(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.plan_being_written import open_plan  # noqa: PLC0415  one command needs it

    path = headless.plan_path(asked.plan)
    try:
        plan = open_plan(path)
    except ValueError as error:
        say_wrong(f"{path}: {error}")
        return FINDINGS
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual takes its time

    return show_editor(plan, folder, club)


def _new(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    plan = None
    if asked.source is not None:
        from classclock.screens.new_plan_list import begin_named  # noqa: PLC0415  the same

        try:
            plan = begin_named(asked.source, folder)
        except ValueError as error:
            say_wrong(f"{asked.source}: {error}")
            return FINDINGS
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual takes its time

    return show_editor(plan, folder, club)


def _demo(asked: argparse.Namespace) -> int:
    from classclock.clock.source import time_source  # noqa: PLC0415
    from classclock.demo import demo_class  # noqa: PLC0415
    from classclock.screens.start import show_class  # noqa: PLC0415

    session, athletes = demo_class(
        seed=asked.seed, source=time_source(asked.speed), speed=asked.speed
    )
    return show_class(session, autopilot=athletes)


def _resume(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.book.unfinished import unfinished  # noqa: PLC0415
    from classclock.clock.source import local_now  # noqa: PLC0415

    if asked.journal:
        path = Path(asked.journal)
    elif cut_off := unfinished(journals(folder), local_now()):
        path = cut_off[0].path
    else:
        say_wrong(f"no class was cut off in {journals(folder)}: classclock starts one")
        return FINDINGS
    from classclock.book.journal import JournalDamagedError  # noqa: PLC0415
    from classclock.book.journal_writer import JournalInUseError  # noqa: PLC0415
    from classclock.screens.start import show_class  # noqa: PLC0415
    from classclock.session import rejoin_session  # noqa: PLC0415

    try:
        session, journal = rejoin_session(path, folder=folder, club=club)
    except (JournalDamagedError, JournalInUseError, ValueError) as error:
        say_wrong(str(error))
        return FINDINGS
    except OSError as error:
        say_wrong(f"{path}: this journal can't be read ({error.strerror})")
        return FINDINGS
    torn = "the last line was torn and is left out; all before it is here"
    return show_class(session, notice=torn if journal.torn else "rejoined")


# -- commands that print ---------------------------------------------------------


def _check(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock import headless_check  # noqa: PLC0415  one command needs it
    from classclock.plan.equipment_check import room_for  # noqa: PLC0415  the same

    library = _library(folder)
    if library is None:
        return FINDINGS
    from classclock.screens.reading_words import reading_lines  # noqa: PLC0415

    columns, rows = asked.window
    reading = reading_lines(club.tv, columns, rows, asked.lanes)
    room = None if asked.athletes is None else room_for(asked.athletes, club, library)
    fits = _fits(asked, folder, library, club) if room is not None and room.names else None
    return headless_check.check(
        asked.plans, club.unit, library, reading, room, as_json=asked.json, fits=fits
    )


def _fits(
    asked: argparse.Namespace, folder: Path, library: "Library", club: Club
) -> "Callable[[Plan], tuple[PieceFit, ...]]":
    """How a plan's pieces would go for those who were named."""
    from classclock.headless_fit import piece_fits  # noqa: PLC0415  sqlalchemy takes its time

    return lambda plan: piece_fits(plan, asked.athletes, folder, library, club.unit)


def _rehearse(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    return headless.rehearse(
        asked.plan,
        asked.athletes,
        asked.taps,
        segment=asked.segment,
        folder=folder,
        club=club,
        as_json=asked.json,
    )


def _replay(asked: argparse.Namespace) -> int:
    return headless.replay(Path(asked.journal), as_json=asked.json)


def _results(asked: argparse.Namespace) -> int:
    folder = results(club_folder(asked.club))
    return headless.results(folder, as_json=asked.json)


def _bar(asked: argparse.Namespace) -> int:
    _, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock import headless_bar  # noqa: PLC0415

    return headless_bar.bar(
        asked.total,
        club.equipment,
        club_unit=club.unit,
        show_in=asked.unit,
        bar_name=asked.bar,
        as_json=asked.json,
    )


def _load(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.headless_load import Asked, load  # noqa: PLC0415

    question = Asked(club.unit, asked.unit, asked.reps, asked.formula, asked.percent, asked.lift)
    return load(asked.of, folder, club.equipment, question, as_json=asked.json)


def _chart(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.headless_pages import show_chart  # noqa: PLC0415

    return show_chart(asked, folder, club.name)


def _athlete(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.headless_pages import show_athlete  # noqa: PLC0415

    return show_athlete(asked, folder, club.name)


def _weeks(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    library = None if club is None else _library(folder)
    if club is None or library is None:
        return FINDINGS
    from classclock.headless_weeks import show_weeks  # noqa: PLC0415  one command needs it

    return show_weeks(folder, library, club.unit, as_json=asked.json)


def _book(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.headless_book import book  # noqa: PLC0415  sqlalchemy takes its time

    return book(asked, folder, club.unit)


def _report(asked: argparse.Namespace) -> int:
    folder, club = _club(asked)
    if club is None:
        return FINDINGS
    from classclock.headless_report import report  # noqa: PLC0415

    return report(asked, folder, club.name)


def _schema(_: argparse.Namespace) -> int:
    return headless.schema()


# -- what they share ------------------------------------------------------------


def _club(asked: argparse.Namespace) -> tuple[Path, Club | None]:
    folder = club_folder(asked.club)
    club, findings = read_club(folder / "club.toml")
    for finding in findings:
        say_wrong(str(finding))
    return folder, club


def _library(folder: Path) -> "Library | None":
    from classclock.plan.movements_reading import read_library  # noqa: PLC0415  two commands do

    library, findings = read_library(folder / "movements.toml")
    for finding in findings:
        say_wrong(str(finding))
    return library


COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "home": _home,
    "run": _run,
    "edit": _edit,
    "new": _new,
    "demo": _demo,
    "resume": _resume,
    "check": _check,
    "rehearse": _rehearse,
    "replay": _replay,
    "results": _results,
    "bar": _bar,
    "load": _load,
    "chart": _chart,
    "athlete": _athlete,
    "book": _book,
    "report": _report,
    "weeks": _weeks,
    "schema": _schema,
}
