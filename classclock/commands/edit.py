"""`edit`: change a plan."""

import argparse

from classclock.club.plan_files import plan_path
from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import FindingsError
from classclock.commands.shared.options import add_club
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.drafts.plan_being_written import open_plan


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.add_argument("plan", help="a plan file; a sample plan is edited as a copy")


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    path = plan_path(asked.plan)
    try:
        plan = open_plan(path)
    except ValueError as error:
        raise FindingsError(f"{path}: {error}") from None
    from classclock.screens.start import show_editor  # noqa: PLC0415  textual, once all is in order

    return show_editor(plan, folder, club)
