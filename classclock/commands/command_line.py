"""The command line: what is asked for is looked up, done, and printed.

Exit status 0 for success, 1 for findings, 2 for bad use. Slow imports wait until a command needs
them: `check` loads no screen, `schema` reads no plan.
"""

import argparse
import os
import sys
from collections.abc import Callable, Mapping, Sequence
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.club.folder import club_folder, results
from classclock.commands import headless
from classclock.commands import with_screens as cli_screens
from classclock.commands.arguments import parser
from classclock.commands.asked_club import asked_club, known_library
from classclock.commands.headless import FINDINGS, OK
from classclock.plan.settings.club import Club

if TYPE_CHECKING:
    from classclock.plan.model import Plan
    from classclock.plan.movements.library import Library
    from classclock.planning.cap_fit import PieceFit

_USUAL_LANES = 8
"""By which the wall is judged where nobody says how many come."""


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


def _check(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands import check as headless_check  # noqa: PLC0415  one command needs it
    from classclock.planning.equipment_check import room_for  # noqa: PLC0415  the same

    library = known_library(folder)
    if library is None:
        return FINDINGS
    from classclock.screens.live.wall.reading_words import reading_lines  # noqa: PLC0415
    from classclock.tally.lineup import MOST_LANES  # noqa: PLC0415

    columns, rows = asked.window
    room = None if asked.athletes is None else room_for(asked.athletes, club, library)
    lanes = asked.lanes or (_USUAL_LANES if room is None else min(room.people, MOST_LANES))
    reading = reading_lines(club.tv, columns, rows, lanes)
    fits = _fits(asked, folder, library, club) if room is not None and room.names else None
    return headless_check.check(
        asked.plans, club.unit, library, reading, room, as_json=asked.json, fits=fits
    )


def _fits(
    asked: argparse.Namespace, folder: Path, library: "Library", club: Club
) -> "Callable[[Plan], tuple[PieceFit, ...]]":
    """How a plan's pieces would go for those who were named."""
    from classclock.commands.check_fit import piece_fits  # noqa: PLC0415  sqlalchemy takes its time

    return lambda plan: piece_fits(plan, asked.athletes, folder, library, club.unit)


def _rehearse(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
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
    _, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands import bar as headless_bar  # noqa: PLC0415

    return headless_bar.bar(
        asked.total,
        club.equipment,
        club_unit=club.unit,
        show_in=asked.unit,
        bar_name=asked.bar,
        as_json=asked.json,
    )


def _load(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands.load import Asked, load  # noqa: PLC0415

    question = Asked(club.unit, asked.unit, asked.reps, asked.formula, asked.percent, asked.lift)
    return load(asked.of, folder, club.equipment, question, as_json=asked.json)


def _chart(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands.pages import show_chart  # noqa: PLC0415

    return show_chart(asked, folder, club.name)


def _athlete(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands.pages import show_athlete  # noqa: PLC0415

    return show_athlete(asked, folder, club.name)


def _weeks(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    library = None if club is None else known_library(folder)
    if club is None or library is None:
        return FINDINGS
    from classclock.commands.weeks import show_weeks  # noqa: PLC0415  one command needs it

    return show_weeks(folder, library, club.unit, as_json=asked.json)


def _book(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands.book import book  # noqa: PLC0415  sqlalchemy takes its time

    return book(asked, folder, club.unit)


def _report(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if club is None:
        return FINDINGS
    from classclock.commands.report import report  # noqa: PLC0415

    return report(asked, folder, club.name)


def _schema(_: argparse.Namespace) -> int:
    return headless.schema()


COMMANDS: Mapping[str, Callable[[argparse.Namespace], int]] = {
    "home": cli_screens.home,
    "run": cli_screens.run,
    "edit": cli_screens.edit,
    "new": cli_screens.new,
    "demo": cli_screens.demo,
    "resume": cli_screens.resume,
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
