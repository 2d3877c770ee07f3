"""Only the command that is asked for is made ready: all of them take longer than reading a plan.

Each says by itself what it says in the list of all: what it does, unless it has more to say.
"""

from typing import Any


class OnlyAsked:
    """Adds commands as argparse's own does, but none save the one that is asked for."""

    def __init__(self, commands: Any, asked: str | None) -> None:
        self._commands, self._asked = commands, asked

    def add_parser(self, name: str, **said: Any) -> Any:
        if self._asked in (None, name):
            words = str(said["help"])
            return self._commands.add_parser(
                name, **{"description": f"{words[0].upper()}{words[1:]}.", **said}
            )
        return _Unasked()


class _Unasked:
    """A command that nobody asks for; whatever it may be told is forgotten."""

    def add_argument(self, *_: Any, **__: Any) -> None: ...

    def set_defaults(self, **_: Any) -> None: ...

    def add_subparsers(self, **_: Any) -> "_Unasked":
        return self

    def add_parser(self, *_: Any, **__: Any) -> "_Unasked":
        return self
