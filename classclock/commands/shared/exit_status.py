"""Exit statuses, and how a command ends where it can't go on."""

OK = 0
FINDINGS = 1
"""Something is faulty, or missing."""
BAD_USE = 2
"""What was asked can't be answered: it has to be asked in another way."""

STOPPED = 130
"""Ended by ctrl+c: 128 and the number of that signal, as shells have it (POSIX, 2.8.2)."""


class EndedError(Exception):
    """The command ends here; `lines` say why, and what to do, for standard error."""

    status = FINDINGS

    def __init__(self, *lines: object) -> None:
        self.lines = tuple(str(line) for line in lines)
        super().__init__(*self.lines)


class FindingsError(EndedError):
    """Something is faulty, or missing."""


class BadUseError(EndedError):
    """What was asked can't be answered; the lines say what to write instead."""

    status = BAD_USE
