"""The command line: the commands that there are, and doing the one that is asked for.

Exit status 0 for success, 1 for findings, 2 for bad use.
"""

import argparse
from collections.abc import Sequence

from classclock import __version__
from classclock.book.under_way import begin
from classclock.clock.source import local_now
from classclock.commands.shared.command_table import (
    Parser,
    Subcommand,
    add_commands,
    command_module,
)
from classclock.commands.shared.exit_status import FINDINGS, STOPPED, EndedError
from classclock.commands.shared.options import add_club
from classclock.commands.shared.printing import say_wrong
from classclock.machine.standard_streams import OutputLostError, all_said, lose_no_sign

COMMANDS = (
    Subcommand("demo", "a sample class, its athletes calling by themselves", "demo"),
    Subcommand("run", "run a class", "run"),
    Subcommand("wall", "the room's wall of the class that runs, in another terminal", "wall"),
    Subcommand("new", "write a new plan", "new"),
    Subcommand("edit", "change a plan", "edit"),
    Subcommand("resume", "rejoin a class that was cut off", "resume"),
    Subcommand("check", "what is wrong with a plan, and how long it is", "check"),
    Subcommand("rehearse", "play a file of keys through one piece, at once, no screen", "rehearse"),
    Subcommand("replay", "work the scores out again from a journal", "replay"),
    Subcommand("results", "the scores of the latest class", "results"),
    Subcommand("bar", "which plates go on the bar", "bar"),
    Subcommand("load", "an estimated maximum, and working sets from it", "load"),
    Subcommand("chart", "everybody's bests on the benchmarks", "chart"),
    Subcommand("athlete", "one athlete's page", "athlete"),
    Subcommand("effort", "how hard a class was for somebody: said or put right after it", "effort"),
    Subcommand("goal", "what somebody works towards: set, listed, dropped", "goal"),
    Subcommand("report", "one class to print or to send", "report"),
    Subcommand("notes", "accidents, holds and notes of a class, for the club's file", "notes"),
    Subcommand("weeks", "movement patterns of the last weeks, and what is planned", "weeks"),
    Subcommand("month", "who came, what is new: a month on one page", "month"),
    Subcommand("away", "who hasn't come for weeks, since when, and what they did", "away"),
    Subcommand("book", "what is remembered: put right, taken in, given out", "book.actions"),
    Subcommand("schema", "the plan file's JSON Schema", "schema"),
)
WITHOUT_A_COMMAND = "home"
"""The module that does what is asked where nothing is."""


def main(arguments: Sequence[str] | None = None) -> int:
    """Run one command line; its exit status."""
    lose_no_sign()
    try:
        try:
            return _done(arguments)
        finally:
            all_said()
    except OutputLostError as lost:
        say_wrong(str(lost))
        return FINDINGS


def _done(arguments: Sequence[str] | None) -> int:
    asked = _parser().parse_args(arguments)
    begin(_typed(asked.module), local_now().isoformat(timespec="seconds"))
    try:
        return command_module(asked.module).do(asked)
    except EndedError as ended:
        for line in ended.lines:
            say_wrong(line)
        return ended.status
    except KeyboardInterrupt:
        say_wrong("Stopped: all is as it was before. The same command begins anew.")
        return STOPPED


def _typed(module: str) -> str:
    """What is typed to get a command, by its module; nothing for the program alone."""
    return "" if module == WITHOUT_A_COMMAND else module.replace(".", " ").rstrip("_")


def _parser() -> argparse.ArgumentParser:
    parser = Parser(
        prog="classclock",
        description="A class timer and tally board for the wall of a small gym.",
        epilog="Without a command: choose a plan, say who is here, run the class.",
    )
    add_club(parser, unless_named=None)
    parser.add_argument("--version", action="version", version=__version__)
    parser.set_defaults(module=WITHOUT_A_COMMAND)
    add_commands(parser, COMMANDS, title="commands", metavar="COMMAND")
    return parser
