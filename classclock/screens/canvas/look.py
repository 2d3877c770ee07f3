"""How things are painted: the colours, and what the terminal can show."""

import os
import sys

from msgspec import Struct, field
from msgspec.structs import replace
from rich.cells import cell_len, set_cell_size

from classclock.machine.terminal import Terminal, terminal_from
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import Drawing, Side, VerticalAlign, blank, line, place
from classclock.screens.canvas.letters.lettering import Paint, draw_lettering
from classclock.screens.canvas.terminal_theme import theme_for
from classclock.units.cell_dots import CellDots
from classclock.units.printable import escaped
from classclock.wall.colours.theme import DARK, Theme


class Look(Struct, frozen=True):
    theme: Theme = DARK
    terminal: Terminal = field(default_factory=Terminal)

    def with_dots(self, dots: CellDots) -> "Look":
        """The same with letters of such dots."""
        return replace(self, terminal=replace(self.terminal, dots=dots))

    def on(self, ground: str, ink: str | None = None) -> "Look":
        """The same on another ground, and with another ink if one is given."""
        theme = replace(self.theme, ground=ground, ink=ink or self.theme.ink)
        return replace(self, theme=theme)

    def letters(
        self,
        text: str,
        columns: int,
        rows: int,
        *,
        ink: str | None = None,
        ground: str | None = None,
        air: int = 0,
    ) -> Drawing:
        """The text as large as fits the box, in ink on ground unless told otherwise."""
        paint = Paint(ink or self.theme.ink, ground or self.theme.ground, self.terminal)
        return draw_lettering(escaped(text), columns, rows, paint, air=air)

    def text(
        self,
        text: str,
        columns: int,
        *,
        ink: str | None = None,
        ground: str | None = None,
        bold: bool = False,
    ) -> Drawing:
        """A row of terminal text, filled to that width; what is too long is cut."""
        under = ground or self.theme.ground
        drawn = line(cut(escaped(text), columns), ink or self.theme.ink, under, bold=bold)
        return place(drawn, columns, 1, under)

    def box(
        self,
        drawing: Drawing,
        columns: int,
        rows: int,
        *,
        across: Side = "left",
        down: VerticalAlign = "top",
    ) -> Drawing:
        """The drawing within a box of this size, on this look's ground."""
        return place(drawing, columns, rows, self.theme.ground, across=across, down=down)

    def gap(self, columns: int, rows: int = 1) -> Drawing:
        return blank(columns, rows, self.theme.ground)


def cut(text: str, columns: int) -> str:
    """The text, ended by … where it is wider than so many cells."""
    if cell_len(text) <= columns:
        return text
    return set_cell_size(text, columns - 1) + "…" if columns > 1 else ""


def look_for(club: Club, dots: CellDots) -> Look:
    """The club's colours, as far as this terminal has them, and letters of such dots."""
    terminal = terminal_from(os.environ, sys.stdout.encoding or "ascii", dots)
    return Look(theme_for(terminal.colours, bright_room=club.theme == "light"), terminal)
