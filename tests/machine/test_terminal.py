"""How many colours a terminal shows, by what its environment says of it on each system.

Windows' console takes all colours since Windows 10 version 1703 (its developers' weblog of 2017),
and Rich sends them there; it sets neither TERM nor COLORTERM.
"""

import sys

import pytest

from classclock.machine import terminal


@pytest.mark.parametrize(
    ("platform", "environment", "colours"),
    [
        ("linux", {"TERM": "xterm", "COLORTERM": "truecolor"}, terminal.ALL),
        ("linux", {"TERM": "xterm-256color"}, 256),
        ("linux", {}, 16),
        ("darwin", {"TERM": "xterm-256color"}, 256),
        ("win32", {}, terminal.ALL),
        ("win32", {"NO_COLOR": "1"}, 16),
    ],
)
def test_colours_are_those_that_the_terminal_shows(
    platform: str, environment: dict[str, str], colours: int, monkeypatch: pytest.MonkeyPatch
) -> None:
    monkeypatch.setattr(sys, "platform", platform)
    assert terminal.terminal_from(environment, "utf-8", "halves").colours == colours
