"""`classclock` without a command: choose a plan, say who is here, run the class."""

import argparse

from classclock.commands.shared.club import asked_club


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    from classclock.screens.start import show_home  # noqa: PLC0415  textual, once all is in order

    return show_home(folder, club)
