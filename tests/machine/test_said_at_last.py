"""What is printed last: to a file, a terminal, one that is full, and a window that is gone."""

import os
import select
import sys
from collections.abc import Iterator
from contextlib import redirect_stdout
from pathlib import Path
from typing import TextIO

import pytest

from classclock.machine import said_at_last
from classclock.machine.said_at_last import say_at_last
from classclock.machine.standard_streams import OutputLostError

if sys.platform == "win32":
    pytest.skip("has no pseudoterminals like these", allow_module_level=True)

SAID = "saved: depot/résultats.json"


@pytest.fixture
def terminal(monkeypatch: pytest.MonkeyPatch) -> Iterator[tuple[int, TextIO]]:
    """The end that reads, and the one that is printed to."""
    monkeypatch.setattr(said_at_last, "_WITHIN", 0.05)
    master, slave = os.openpty()
    with os.fdopen(slave, "w", encoding="utf-8") as file:
        yield master, file


def said(file: TextIO, words: str) -> None:
    """Say it there; while a test is run, and not before, standard output is its own."""
    with redirect_stdout(file):
        say_at_last(words)


def test_they_are_printed_to_a_file_as_ever(tmp_path: Path) -> None:
    path = tmp_path / "said"
    with path.open("w", encoding="utf-8") as file:
        said(file, SAID)
    assert path.read_text("utf-8") == f"{SAID}\n"


def test_they_are_printed_to_a_terminal(terminal: tuple[int, TextIO]) -> None:
    reader, file = terminal
    said(file, SAID)
    assert os.read(reader, 4096).decode() == f"{SAID}\r\n"
    os.close(reader)


def test_nothing_in_them_steers_the_terminal(terminal: tuple[int, TextIO]) -> None:
    reader, file = terminal
    said(file, "saved: \x1b[2J")
    assert os.read(reader, 4096) == b"saved: \\x1b[2J\r\n"
    os.close(reader)


def test_a_terminal_that_is_full_goes_without_them(terminal: tuple[int, TextIO]) -> None:
    reader, file = terminal
    said(file, "x" * 100_000)
    said(file, SAID)
    taken = b""
    while has_any(reader):
        taken += os.read(reader, 4096)
    assert 0 < taken.count(b"x") == len(taken) < 100_000
    os.close(reader)


def has_any(reader: int) -> bool:
    return bool(select.select([reader], [], [], 0.05)[0])


def test_a_window_that_is_gone_is_output_that_is_lost(terminal: tuple[int, TextIO]) -> None:
    reader, file = terminal
    os.close(reader)
    with pytest.raises(OutputLostError):
        said(file, SAID)
