"""`wall`: the room's wall of whatever class runs in this folder, in another terminal or a page."""

import argparse

from classclock.commands.shared.club import asked_club
from classclock.commands.shared.exit_status import BadUseError
from classclock.commands.shared.options import add_club, add_page
from classclock.commands.shared.terminal import needs_a_terminal
from classclock.following.priority import give_way


def add_arguments(parser: argparse.ArgumentParser) -> None:
    add_club(parser)
    parser.epilog = (
        "The class's own screen can then be the coach's alone: ctrl+w turns it, once it is said "
        "that the TV doesn't show it."
    )
    add_page(parser)


def do(asked: argparse.Namespace) -> int:
    folder, club = asked_club(asked)
    if asked.serve is not None:
        from classclock.commands.shared.serving import serve_wall  # noqa: PLC0415  needs the extra

        return serve_wall(folder.absolute(), club, asked.serve, asked.port)
    if asked.port is not None:
        raise BadUseError("a port is for a page: write classclock wall --serve --port N")
    needs_a_terminal()
    from classclock.screens.start import show_wall  # noqa: PLC0415  textual, once all is in order

    give_way()  # twenty walls can be shown: no key of the class waits for them

    return show_wall(folder.absolute(), club)
