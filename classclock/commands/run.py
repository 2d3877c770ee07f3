"""`run`: run a class on a plan; who is here is asked unless the command says it."""

import argparse
from datetime import timedelta

from classclock.book.asking.people_reading import known_for, people_called
from classclock.clock.source import time_source
from classclock.club.movements import filled_in
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS
from classclock.commands.shared.options import add_club, names_that_differ, speed
from classclock.commands.shared.plan import asked_plan
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.live.session_opening import open_session


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.add_argument("plan", help="a plan file, or the name of a sample plan")
    parser.add_argument(
        "--athletes",
        type=names_that_differ,
        metavar='"ILSE, BRAM"',
        help="who is here, with commas between",
    )
    parser.add_argument(
        "--speed",
        type=speed,
        default=1,
        help="how many times as fast as life, to try things out (1)",
    )


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    plan_file = asked_plan(asked.plan, club.unit)
    if plan_file is None:
        return FINDINGS
    from classclock.screens.start import show_class, show_who  # noqa: PLC0415  textual, once all is in order

    if not asked.athletes:
        return show_who(plan_file, folder, club, speed=asked.speed)
    plan_file, trouble = filled_in(plan_file, folder)
    source = time_source(asked.speed)
    ends = source.wall() + timedelta(milliseconds=club.class_length)
    session = open_session(
        plan_file,
        people_called(asked.athletes, known_for(folder, asked.athletes)),
        folder=folder,
        club=club,
        source=source,
        ends=ends.isoformat(timespec="seconds"),
        speed=asked.speed,
    )
    session.left_out = trouble
    return show_class(session)
