"""What a command that shows a screen needs."""

import sys

from classclock.commands.shared.exit_status import FindingsError


def needs_a_terminal() -> None:
    """Look before anything is begun: without a keyboard a class couldn't be ended.

    Raises:
        FindingsError: there is nothing to read keys from, or to draw on.
    """
    if sys.__stdin__ is None or sys.__stderr__ is None:
        raise FindingsError(
            "a screen needs a terminal, for its keys and to draw on: standard input or standard "
            "error is closed, start it without <&- and 2>&-"
        )
