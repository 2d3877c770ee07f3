"""What the terminal can show: its colours, and into how many dots a cell can be split."""

import sys
from collections.abc import Mapping
from typing import Literal

from msgspec import Struct

from classclock.units.cell_dots import CellDots

Colours = Literal[16, 256, 16_777_216]
ALL: Colours = 16_777_216


class Terminal(Struct, frozen=True):
    colours: Colours = ALL
    dots: CellDots | None = "sextants"
    """None where only ASCII comes out."""

    @property
    def shades(self) -> bool:
        """Whether there are tones between ink and ground, if only greys."""
        return self.colours > 16


_TRUE_COLOUR = ("truecolor", "24bit")
_256 = ("256color", "kitty")
"""How a TERM of so many colours ends; what Rich, which sends them, goes by."""


def terminal_from(environment: Mapping[str, str], encoding: str, dots: CellDots) -> Terminal:
    """From variables such as COLORTERM, TERM and NO_COLOR, and the output's encoding.

    `dots` is what the terminal can draw if it can draw anything but ASCII.
    """
    if not encoding.lower().replace("-", "").startswith("utf"):
        return Terminal(16, None)
    return Terminal(_colours(environment), dots)


def _colours(environment: Mapping[str, str]) -> Colours:
    if environment.get("NO_COLOR"):
        return 16
    if environment.get("COLORTERM", "").lower() in _TRUE_COLOUR:
        return ALL
    if sys.platform == "win32":  # its console shows all since 2017, and no variable says so
        return ALL
    return 256 if environment.get("TERM", "").rpartition("-")[2] in _256 else 16
