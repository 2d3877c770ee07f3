"""`classclock` without a command: choose a plan, say who is here, run the class."""

import argparse

from classclock.commands.shared.club import asked_club
from classclock.commands.shared.terminal import needs_a_terminal


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    from classclock.screens.start import show_home  # noqa: PLC0415  textual, once all is in order

    return show_home(folder, club)
