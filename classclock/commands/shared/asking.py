"""Questions on the command line: asked in a terminal, and nowhere else."""

import sys
from collections.abc import Sequence

from classclock.commands.shared.exit_status import FindingsError
from classclock.machine.standard_streams import say
from classclock.units.digits import is_whole


def can_ask() -> bool:
    """Whether somebody sits at a terminal to be asked."""
    streams = (sys.stdin, sys.stdout)
    return all(stream is not None and stream.isatty() for stream in streams)


def choose(question: str, choices: Sequence[str]) -> int:
    """Ask until one is chosen by its number; its place, from 0.

    Raises:
        FindingsError: nothing more is typed.
    """
    say(question, *(f"  {number}  {words}" for number, words in enumerate(choices, start=1)))
    while True:
        say(f"Type 1 to {len(choices)}, then enter:")
        typed = _line().strip()
        if is_whole(typed) and 1 <= int(typed) <= len(choices):
            return int(typed) - 1


def _line() -> str:
    line = sys.stdin.readline()
    if not line:
        raise FindingsError("No answer: nothing went in. Start it again when you know.")
    return line
