"""`wall`: the room's wall of whatever class runs in this folder, in another terminal."""

import argparse

from classclock.commands.shared.club import asked_club
from classclock.commands.shared.options import add_club
from classclock.commands.shared.terminal import needs_a_terminal


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.epilog = (
        "The class's own screen can then be the coach's alone: ctrl+w turns it, once it is said "
        "that the TV doesn't show it."
    )


def do(asked: argparse.Namespace) -> int:
    needs_a_terminal()
    folder, club = asked_club(asked)
    from classclock.screens.start import show_wall  # noqa: PLC0415  textual, once all is in order

    return show_wall(folder.absolute(), club)
