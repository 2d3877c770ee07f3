"""`run`: run a class on a plan, or a clock without one; who is here is asked unless it is said."""

import argparse

from classclock.club.movements import filled_in
from classclock.club.plan_files import plan_path
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FINDINGS, BadUseError, FindingsError
from classclock.commands.shared.options import add_club, add_page, names_that_differ, speed
from classclock.commands.shared.plan import asked_plan
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.live.session_opening import open_for
from classclock.plan.reading.clock_forms import FORMS


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.add_argument(
        "plan",
        nargs="*",
        help="a plan file, the name of a sample plan, or a clock without a plan: "
        + ", ".join(f'"{form}"' for form in FORMS)
        + "; which clock is asked where nothing is said",
    )
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
    add_page(parser)


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    serves = None if asked.serve is None else (asked.serve, asked.port)
    named = " ".join(asked.plan)
    if not named or _is_a_line(named):
        from classclock.screens.start import show_clock  # noqa: PLC0415  as below

        names = asked.athletes or ()
        return show_clock(folder, club, speed=asked.speed, line=named, names=names, serves=serves)
    if len(asked.plan) > 1:
        raise BadUseError(f"one plan at a time: write classclock run {asked.plan[0]}")
    plan_file = asked_plan(named, club.unit)
    if plan_file is None:
        return FINDINGS
    from classclock.screens.start import show_class, show_who  # noqa: PLC0415  textual, once all is in order

    if not asked.athletes:
        return show_who(plan_file, folder, club, speed=asked.speed, serves=serves)
    plan_file, trouble = filled_in(plan_file, folder)
    session = open_for(plan_file, asked.athletes, folder=folder, club=club, speed=asked.speed)
    session.left_out = trouble
    return show_class(session, serves=serves)


def _is_a_line(named: str) -> bool:
    """Whether it says a clock rather than a file.

    Raises:
        FindingsError: there is no such file, and a clock that is near to it.
    """
    try:
        if plan_path(named).exists():
            return False
    except OSError:  # too long for a file's name; reading it says so
        return False
    from classclock.plan.reading.clock_line import NoClock, read_clock_line  # noqa: PLC0415  no file's name

    read = read_clock_line(named)
    if isinstance(read, NoClock) and read.instead is not None:
        raise FindingsError(f"{read.why}; nor is there such a plan file")
    return not isinstance(read, NoClock)
