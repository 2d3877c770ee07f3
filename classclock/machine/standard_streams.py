"""Standard output and error: the one way by which text leaves for a terminal, a pipe or a file.

Nothing that is said steers the terminal. What the output's encoding lacks comes as an escape;
documents for programs are UTF-8 whatever it is.
"""

import os
import sys
from contextlib import suppress
from io import TextIOWrapper
from typing import IO

from classclock.units.printable import escaped, escaped_json


class OutputLostError(Exception):
    """What was to be said can't be written; `str` says why and what to do, in plain words."""


def lose_no_sign() -> None:
    r"""From here on a sign that the encoding lacks is written as an escape (`\u2502`)."""
    for stream in (sys.stdout, sys.stderr):
        if isinstance(stream, TextIOWrapper):
            stream.reconfigure(errors="backslashreplace")


def say(*lines: str) -> None:
    """Print these; a line that holds a line break shows it as an escape.

    Raises:
        OutputLostError: the output is closed, or the disk that it goes to is full.
    """
    _write("".join(f"{escaped(line)}\n" for line in lines))


def say_wrong(line: str) -> None:
    """Print one line to standard error. Where there is none it is lost: nobody could be told."""
    with suppress(OSError):
        print(escaped(line), file=sys.stderr, flush=True)


def say_document(json: str) -> None:
    """Print one JSON document, as UTF-8.

    Raises:
        OutputLostError: as `say` does.
    """
    _write(f"{escaped_json(json)}\n", "utf-8")


def say_styled(text: str) -> None:
    """Print text that has styles of our own in it, in which every value was `escaped` before.

    Raises:
        OutputLostError: as `say` does.
    """
    _write(text)


def all_said() -> None:
    """Wait until it is written: what has waited in memory so far can still fail.

    Raises:
        OutputLostError: as `say` does.
    """
    if sys.stdout is not None:
        _write("")


def _write(text: str, encoding: str = "") -> None:
    out = sys.stdout
    if out is None:  # it was closed before we began
        raise OutputLostError(_WRITTEN_NOWHERE.format("it is closed"))
    try:
        if encoding and isinstance(out, TextIOWrapper):
            out.flush()
            out.buffer.write(text.encode(encoding))
        else:
            out.write(text)
        out.flush()
    except BrokenPipeError:
        _into_nothing(out)  # whoever read has read enough: what is left to do is still done
    except OSError as error:
        _into_nothing(out)
        raise OutputLostError(_WRITTEN_NOWHERE.format(error.strerror)) from None


_WRITTEN_NOWHERE = "standard output can't be written to ({}): send it elsewhere and ask again"


def _into_nothing(out: IO[str]) -> None:
    """What still waits in memory would fail once more as the program ends."""
    nothing = os.open(os.devnull, os.O_WRONLY)
    os.dup2(nothing, out.fileno())
    os.close(nothing)
