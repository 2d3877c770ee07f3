"""Knowing the terminal: by its variables, and by what it answers."""

import pytest

from classclock.machine.terminal import ALL, Terminal, terminal_from
from classclock.machine.terminal_kinds import TerminalKind, kind_answered, kind_from
from classclock.units.cell_dots import CellDots

XTERM = {"TERM": "xterm-256color"}


@pytest.mark.parametrize(
    ("environment", "encoding", "expected"),
    [
        ({"COLORTERM": "truecolor", "TERM": "xterm-256color"}, "utf-8", Terminal(ALL, "halves")),
        ({"TERM": "xterm-256color"}, "UTF-8", Terminal(256, "halves")),
        ({"TERM": "xterm-kitty"}, "UTF-8", Terminal(256, "halves")),
        ({"COLORTERM": "truecolor", "NO_COLOR": "1"}, "utf8", Terminal(16, "halves")),
        ({"TERM": "linux"}, "utf-8", Terminal(16, "halves")),
        ({"TERM": "xterm", "COLORTERM": "24bit"}, "ascii", Terminal(16, None)),
    ],
)
def test_colours_are_told_by_variables_and_signs_by_the_encoding(
    environment: dict[str, str], encoding: str, expected: Terminal
) -> None:
    assert terminal_from(environment, encoding, "halves") == expected


@pytest.mark.parametrize(
    ("environment", "name", "dots"),
    [
        ({"TERM": "xterm-kitty"}, "kitty", "sextants"),
        ({**XTERM, "KITTY_WINDOW_ID": "1"}, "kitty", "sextants"),
        ({"TERM": "foot"}, "foot", "sextants"),
        ({**XTERM, "VTE_VERSION": "7006"}, "VTE", "sextants"),
        ({**XTERM, "VTE_VERSION": "6003"}, "VTE", "quadrants"),
        ({**XTERM, "KONSOLE_VERSION": "221203"}, "Konsole", "sextants"),
        ({**XTERM, "KONSOLE_VERSION": "201202"}, "Konsole", "quadrants"),
        ({"TERM": "alacritty"}, "Alacritty", "quadrants"),
        ({**XTERM, "WT_SESSION": "a-guid"}, "Windows Terminal", "quadrants"),
        ({**XTERM, "TERM_PROGRAM": "vscode"}, "VS Code", "quadrants"),
        ({**XTERM, "TERM_PROGRAM": "Apple_Terminal"}, "Apple Terminal", None),
        ({"TERM": "rxvt-unicode-256color"}, "rxvt-unicode", "quadrants"),
        ({"TERM": "linux"}, "console", None),
        ({"TERM": "vt220"}, "dumb", None),
    ],
)
def test_a_terminal_that_says_what_it_is_is_not_asked(
    environment: dict[str, str], name: str, dots: CellDots | None
) -> None:
    assert kind_from(environment) == TerminalKind(name, dots)


def test_a_terminal_that_says_nothing_is_asked() -> None:
    assert kind_from(XTERM) == TerminalKind("xterm-256color", asks=True)
    assert kind_from({}) == TerminalKind("unknown")


def test_a_name_is_fit_to_be_shown_and_kept() -> None:
    assert kind_from({"TERM": "odd\x1b[2J\udcff"}).name == r"odd\x1b[2J\udcff"
    assert len(kind_answered(TerminalKind("x"), "t" * 200).name) == 40


def test_one_terminal_started_from_another_is_known_by_its_term_or_asked() -> None:
    inherited = {"VTE_VERSION": "7006"}
    assert kind_from({**inherited, "TERM": "st-256color"}) == TerminalKind("st")
    assert kind_from({**inherited, **XTERM, "XTERM_VERSION": "XTerm(379)"}).asks


@pytest.mark.parametrize("inner", [{"TMUX": "a-socket,1,0"}, {"TERM": "tmux-256color"}])
def test_within_another_the_variables_of_the_outer_one_say_nothing(inner: dict[str, str]) -> None:
    assert kind_from({**XTERM, "VTE_VERSION": "7006", **inner}) == TerminalKind("tmux")


@pytest.mark.parametrize(
    ("answer", "kind"),
    [
        ("VTE(7600)", TerminalKind("VTE", "sextants")),  # as xfce4-terminal answers
        ("kitty(0.26.5)", TerminalKind("kitty", "sextants")),
        ("XTerm(379)", TerminalKind("xterm")),
        ("Konsole 22.12.3", TerminalKind("Konsole", "sextants")),
        ("new-term 1.0", TerminalKind("new-term")),
        ("", kind_from(XTERM)),
        ("(?)", kind_from(XTERM)),
    ],
)
def test_what_a_terminal_calls_itself_tells_its_kind(answer: str, kind: TerminalKind) -> None:
    assert kind_answered(kind_from(XTERM), answer) == kind
