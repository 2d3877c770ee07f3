"""How the loads that the coach should look at are drawn, with what is known of each."""

from collections.abc import Sequence

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.canvas.stack import Line, stack
from classclock.tally.load_flags import LoadFlag
from classclock.units.printable import printable

_PITCH = 3
"""Rows of one flag: whose it is, what it says, and a free one."""
_DEFERS = "No record knows of today: the coach decides."


def fitting(rows: int) -> int:
    """How many flags are shown at once on a screen of so many rows."""
    return max(1, (rows - heading_rows(rows) - 5) // _PITCH)


def draw_flags(flags: Sequence[LoadFlag], columns: int, rows: int, look: Look) -> Drawing:
    """As many as fit, the rest when these have been read."""
    shown = flags[: fitting(rows)]
    more = f"{len(flags) - len(shown)} more after these" if len(flags) > len(shown) else ""
    heading = draw_heading("Loads to look at", (more,), columns, heading_rows(rows), look)
    entries = above(*(_entry(flag, columns, look) for flag in shown))
    body = look.box(entries, columns, max(0, rows - len(heading) - 5))
    foot = (
        look.text(_DEFERS, columns, ink=look.theme.quiet),
        look.text("enter: looked at   escape: later, they stay open", columns, bold=True),
    )
    return above(look.gap(columns), heading, look.gap(columns), body, look.gap(columns), *foot)


def _entry(flag: LoadFlag, columns: int, look: Look) -> Drawing:
    theme = look.theme
    cap = look.text(
        f" {flag.key.upper()} ", 3, ink=theme.key_ink, ground=theme.key_ground, bold=True
    )
    whose = printable(f"{flag.name}, {flag.piece}", 200)
    return above(
        beside(cap, look.gap(1), look.text(whose, columns - 4, bold=True)),
        beside(look.gap(4), look.text(printable(flag.text, 200), columns - 4)),
        look.gap(columns),
    )


def draw_cover(flags: Sequence[LoadFlag], columns: int, rows: int, look: Look) -> Drawing:
    count = len(flags)
    lines = (
        Line(f"{count} load{'s' if count > 1 else ''} to look at", "title", bold=True),
        Line(keep=6),
        Line("The TV shows this screen too.", "second"),
        Line("Mute it or turn it away, then enter shows them.", "second"),
        Line(keep=6),
        Line("escape: later, they stay open", ink=look.theme.quiet),
    )
    return look.box(stack(lines, columns, max(1, rows - 1), look), columns, rows, down="bottom")
