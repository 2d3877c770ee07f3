"""Asking a terminal through a real pty; time is wound by hand."""

import os
import pty
import sys
import termios
from collections.abc import Iterator
from typing import NamedTuple

import pytest

from classclock.machine.terminal_answers import QUERY
from classclock.machine.terminal_query import MOST_SECONDS, TerminalQuery, asked

if sys.platform == "win32":
    pytest.skip("a real pty", allow_module_level=True)

ANSWER = b"\x1bP>|VTE(7006)\x1b\\\x1b[?65;1;9c"


class Pty(NamedTuple):
    terminal: int
    program: int


@pytest.fixture
def ends() -> Iterator[Pty]:
    terminal, program = pty.openpty()
    state = termios.tcgetattr(program)
    state[3] &= ~(termios.ECHO | termios.ICANON)
    termios.tcsetattr(program, termios.TCSANOW, state)
    yield Pty(terminal, program)
    os.close(terminal)
    os.close(program)


def query(ends: Pty, *readings: float) -> TerminalQuery:
    """A query whose clock shows these, one at each look."""
    asks = TerminalQuery(ends.program, ends.program, iter(readings).__next__)
    assert os.read(ends.terminal, 100) == QUERY
    return asks


def test_an_answer_in_time_is_the_terminals_name_and_keys_around_it_are_kept(ends: Pty) -> None:
    asks = query(ends, 0.0, 0.0, 0.0)
    os.write(ends.terminal, b"n" + ANSWER + b"i")
    assert asks.version() == "VTE(7006)"
    assert asks.early == b"ni"
    assert asks.answers.complete


def test_a_terminal_that_says_nothing_is_waited_for_no_longer_than_was_said(ends: Pty) -> None:
    os.write(ends.terminal, b"n")
    asks = query(ends, 0.0, MOST_SECONDS, MOST_SECONDS)
    assert asks.version() == ""
    assert asks.early == b"n"


def test_half_an_answer_is_no_key_and_its_rest_is_known_later(ends: Pty) -> None:
    asks = query(ends, 0.0, MOST_SECONDS, MOST_SECONDS)
    os.write(ends.terminal, ANSWER[:9])
    assert asks.version() == ""
    assert asks.early == b""
    assert asks.answers.typed(ANSWER[9:] + b"n") == b"n"


def test_nobody_is_asked_where_there_is_no_terminal(monkeypatch: pytest.MonkeyPatch) -> None:
    with open(os.devnull) as nothing:  # noqa: PTH123  a device
        monkeypatch.setattr(sys, "__stdin__", nothing)
        with asked(lambda: 0.0) as asks:
            assert asks is None


def test_the_terminal_is_silent_while_asked_and_then_as_it_was(
    monkeypatch: pytest.MonkeyPatch,
) -> None:
    terminal, program = pty.openpty()
    with os.fdopen(program, "r+b", buffering=0) as end:
        monkeypatch.setattr(sys, "__stdin__", end)
        monkeypatch.setattr(sys, "__stderr__", end)
        before = termios.tcgetattr(program)
        assert before[3] & termios.ECHO
        with asked(lambda: 0.0) as asks:
            assert asks is not None
            assert not termios.tcgetattr(program)[3] & (termios.ECHO | termios.ICANON)
        assert termios.tcgetattr(program) == before
    os.close(terminal)
