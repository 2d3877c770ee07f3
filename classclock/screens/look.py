"""How things are painted: the colours, and what the terminal can show."""

from dataclasses import dataclass, field

from classclock.screens.drawing.terminal import Terminal
from classclock.screens.theme import DARK, Theme


@dataclass(frozen=True, slots=True)
class Look:
    theme: Theme = DARK
    terminal: Terminal = field(default_factory=Terminal)
