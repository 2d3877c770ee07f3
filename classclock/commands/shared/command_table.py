"""A table of commands, of which only the one that is asked for is loaded.

Making all of them ready to be read would take longer than reading a plan, and loading them longer
than showing a class.
"""

import argparse
from collections.abc import Sequence
from importlib import import_module
from typing import Any, NamedTuple, NoReturn, Protocol, cast

from classclock.units.printable import escaped, joined


class Subcommand(NamedTuple):
    name: str
    """As it is typed."""
    help: str
    """What it does, in one line for the list of all; without a full stop."""
    module: str
    """The module that says its arguments and does it, under `classclock.commands`."""


class CommandModule(Protocol):
    """What the module of a command has."""

    def add_arguments(self, parser: argparse.ArgumentParser) -> None:
        """Say what may be typed behind the command's name."""

    def do(self, asked: argparse.Namespace) -> int:
        """Do what is asked; its exit status.

        Raises:
            EndedError: it can't be done; the error has the lines to say, and the exit status.
        """


def command_module(name: str) -> CommandModule:
    """Load the module of a command, by its name under `classclock.commands`."""
    return cast("CommandModule", import_module(f"classclock.commands.{name}"))


def add_commands(
    parser: argparse.ArgumentParser, commands: Sequence[Subcommand], **said: Any
) -> None:
    """Let one of these commands be typed; `said` is what argparse is told of their list.

    `module` of what the parser gives is the one of the command that was typed.
    """
    listed = parser.add_subparsers(parser_class=cast("type[Parser]", _WhenAsked), **said)
    for command in commands:
        listed.add_parser(
            command.name,
            help=command.help,
            description=f"{command.help[0].upper()}{command.help[1:]}.",
            module=command.module,
        )


class Parser(argparse.ArgumentParser):
    """Says what it can't read without letting it steer the terminal."""

    def error(self, message: str) -> NoReturn:
        super().error(escaped(joined(message)))


class _WhenAsked:
    """Stands for a command's parser until something is typed behind the command's name.

    All that argparse asks of one is `parse_known_args`; making one takes as long as all of these.
    """

    def __init__(self, *, module: str, **said: Any) -> None:
        self._module, self._said = module, said

    def parse_known_args(self, args: Any = None, namespace: Any = None) -> Any:
        parser = Parser(**self._said)
        parser.set_defaults(module=self._module)
        command_module(self._module).add_arguments(parser)
        return parser.parse_known_args(args, namespace)
