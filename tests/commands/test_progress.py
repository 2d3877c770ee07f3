"""The bar on whatever takes longer than a second: on a terminal's standard error alone."""

import io
import sys

import pytest

from classclock.book.under_way import NOW, steps, told
from classclock.clock.source import MS
from classclock.commands.shared.progress import progress_shown


class Terminal(io.StringIO):
    def isatty(self) -> bool:
        return True


@pytest.fixture
def seconds(monkeypatch: pytest.MonkeyPatch) -> list[float]:
    """The clock by which the bar goes, wound by hand."""
    now = [0.0]
    monkeypatch.setattr(
        "classclock.commands.shared.progress.raw_now", lambda: int(now[0] * 1000) * MS
    )
    return now


def terminal(monkeypatch: pytest.MonkeyPatch) -> Terminal:
    """Standard error from here on: no fixture, since pytest puts its own there for each test."""
    shown = Terminal()
    monkeypatch.setattr(sys, "stderr", shown)
    monkeypatch.setenv("TERM", "xterm")
    return shown


def test_it_comes_after_a_second_and_goes_with_its_end(
    seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = terminal(monkeypatch)
    with progress_shown():
        for number in steps("Taking classes in", range(4)):
            seconds[0] += 0.4
            assert ("Taking classes in" in shown.getvalue()) == (number == 3)
        assert shown.getvalue().endswith("\x1b[2K"), "its line is empty again"
        told("Working out bests", 1, 2)
        assert "50%" in shown.getvalue()
    assert shown.getvalue().endswith("\x1b[2K")
    assert NOW.listener is None


def test_what_takes_less_shows_nothing(
    seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = terminal(monkeypatch)
    with progress_shown():
        for _ in steps("Taking classes in", range(9)):
            seconds[0] += 0.1
    assert shown.getvalue() == ""


def test_the_second_begins_anew_after_a_question(
    seconds: list[float], monkeypatch: pytest.MonkeyPatch
) -> None:
    shown = terminal(monkeypatch)
    with progress_shown():
        for _ in range(3):
            for _ in steps("Reading rows", range(2)):
                seconds[0] += 0.1
            seconds[0] += 20  # the coach thinks
    assert shown.getvalue() == ""


def test_without_a_terminal_nothing_is_shown_however_long_it_takes(
    seconds: list[float], capsys: pytest.CaptureFixture[str]
) -> None:
    with progress_shown():
        for _ in steps("Taking classes in", range(9)):
            seconds[0] += 5
    assert capsys.readouterr() == ("", "")
