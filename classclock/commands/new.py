"""`new`: write a new plan, from a format, another plan, or a class that was held."""

import argparse

from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FindingsError
from classclock.commands.shared.options import add_club
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.drafts.new_plan_list import begin_named


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.add_argument(
        "source",
        nargs="?",
        metavar="FORMAT|PLAN|RESULTS",
        help="begin with a format, a copy of a plan, or the plan of a class that was held",
    )


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    try:
        plan = None if asked.source is None else begin_named(asked.source, folder)
    except ValueError as error:
        raise FindingsError(f"{asked.source}: {error}") from None
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual, once all is in order

    return show_editor(plan, folder, club)
