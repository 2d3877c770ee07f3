"""Which terminal it is, and what it draws by itself whatever its font has.

A terminal tells by its TERM, by variables that it sets, or by its answer to XTVERSION (`CSI > q`,
xterm's "Control Sequences", ctlseqs). One that draws no block elements by itself, or that nobody
knows, has what its font has, and nearly every font has half blocks.
"""

import re
from collections.abc import Mapping

from msgspec import Struct

from classclock.units.cell_dots import CellDots
from classclock.units.printable import printable

_LONGEST = 40
"""Signs of a name."""


class TerminalKind(Struct, frozen=True):
    name: str
    """By which what the coach said of it is remembered."""
    dots: CellDots | None = None
    """What it is known to draw by itself; None where its font decides."""
    asks: bool = False
    """Whether an answer of its own could say more."""


class _Known(Struct, frozen=True):
    dots: CellDots | None
    terms: tuple[str, ...] = ()
    """How a TERM begins that nothing else sets."""
    variables: tuple[str, ...] = ()
    """Set by it alone; NAME=value where only that value tells."""
    answer: str = ""
    """How its answer to XTVERSION begins."""
    since: int = 0
    """The first version that does so, as one number: 6200 for 0.62, 221203 for 22.12.3."""
    earlier: CellDots | None = None
    """What those before it draw by themselves."""


_KINDS: dict[str, _Known] = {
    # Their own documentation says so: kitty's FAQ ("box drawing"), foot.ini(5) under
    # box-drawings-uses-font-glyphs, custom_block_glyphs of WezTerm, builtin_box_drawing of
    # contour and of Alacritty (sextants since 0.13, which no variable tells: so quadrants here).
    "kitty": _Known("sextants", ("xterm-kitty",), ("KITTY_WINDOW_ID",), "kitty("),
    "foot": _Known("sextants", ("foot",), (), "foot("),
    "WezTerm": _Known("sextants", ("wezterm",), ("TERM_PROGRAM=WezTerm",), "WezTerm "),
    "contour": _Known("sextants", ("contour",), ("TERMINAL_NAME=contour",), "contour "),
    "Ghostty": _Known("sextants", ("xterm-ghostty",), ("GHOSTTY_RESOURCES_DIR",), "ghostty "),
    "Alacritty": _Known("quadrants", ("alacritty",), ("ALACRITTY_WINDOW_ID", "ALACRITTY_LOG")),
    # VTE's own small font (minifont.cc) has had the sextants since 0.62.
    "VTE": _Known("sextants", (), ("VTE_VERSION",), "VTE(", 6200, "quadrants"),
    # Seen in 22.12.3, as `make terminals` shows it; block elements long before.
    "Konsole": _Known(
        "sextants", ("konsole",), ("KONSOLE_VERSION",), "Konsole ", 221203, "quadrants"
    ),
    # urxvt(1), skipBuiltinGlyphs: block graphics are built in.
    "rxvt-unicode": _Known("quadrants", ("rxvt-unicode",)),
    # Settings "font.builtinGlyphs" and "terminal.integrated.customGlyphs": block elements.
    "Windows Terminal": _Known("quadrants", (), ("WT_SESSION",), "Windows Terminal "),
    "VS Code": _Known("quadrants", (), ("TERM_PROGRAM=vscode",), "xterm.js("),
    "iTerm2": _Known("quadrants", (), ("TERM_PROGRAM=iTerm.app", "LC_TERMINAL=iTerm2"), "iTerm2 "),
    # These have what their font has.
    "xterm": _Known(None, (), ("XTERM_VERSION",), "XTerm("),
    "st": _Known(None, ("st-", "stterm")),
    "Apple Terminal": _Known(None, (), ("TERM_PROGRAM=Apple_Terminal",)),
    "console": _Known(None, ("linux",)),
    "tmux": _Known(None, ("tmux",), ("TMUX",), "tmux "),
    "screen": _Known(None, ("screen",), ("STY",)),
    "dumb": _Known(None, ("dumb", "vt")),
}
TELLING = frozenset(
    variable.partition("=")[0] for kind in _KINDS.values() for variable in kind.variables
)
"""All variables that may tell the kind, beside TERM."""
_INNER = ("tmux", "screen")
"""They draw in another terminal, whose variables may be those of one that is long gone."""


def kind_from(environment: Mapping[str, str]) -> TerminalKind:
    """As far as variables tell; TERM, which every terminal sets anew, before the others.

    Variables of two kinds, where one was started from the other, tell nothing.
    """
    term = environment.get("TERM", "")
    told = [name for name in _KINDS if _tells(_KINDS[name].variables, environment)]
    inner = next((name for name in _INNER if name in told), None)
    named = inner or next(
        (name for name, one in _KINDS.items() if term.startswith(one.terms)), None
    )
    if named is None and len(told) == 1:
        (named,) = told
    if named is None:
        return TerminalKind(printable(term, _LONGEST) or "unknown", asks=bool(term))
    return _kind(named, *(environment.get(name, "") for name in _KINDS[named].variables))


def kind_answered(before: TerminalKind, answer: str) -> TerminalKind:
    """By what it answered to XTVERSION, such as `VTE(7600)`; as before where nobody knows that."""
    for name, known in _KINDS.items():
        if known.answer and answer.startswith(known.answer):
            return _kind(name, answer)
    own = re.match(r"[A-Za-z][\w.-]*", answer, re.ASCII)
    return TerminalKind(own[0][:_LONGEST]) if own else before


def _tells(variables: tuple[str, ...], environment: Mapping[str, str]) -> bool:
    pairs = (variable.partition("=") for variable in variables)
    return any(
        environment.get(name) == value if equals else bool(environment.get(name))
        for name, equals, value in pairs
    )


def _kind(name: str, *versions: str) -> TerminalKind:
    known = _KINDS[name]
    enough = not known.since or any(_number(text) >= known.since for text in versions)
    return TerminalKind(name, known.dots if enough else known.earlier)


def _number(version: str) -> int:
    """`VTE(7600)` and `7600` are 7600, `22.12.3` is 221203; 0 without a number."""
    first, *others = re.findall(r"\d+", version) or ["0"]
    return int(first + "".join(other.zfill(2) for other in others))
