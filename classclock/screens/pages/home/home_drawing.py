"""How home is drawn: a line for what can be opened, what it holds under it."""

from textwrap import wrap

from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.foot_keys import key_rows
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.controls.typed_drawing import draw_typed_at_end
from classclock.screens.pages.home.home_desk import HomeDesk
from classclock.screens.pages.home.home_list import HomeEntry
from classclock.units.printable import printable

_KEYS = (
    "enter opens",
    "up, down",
    "type to find",
    "F2 emergency card",
    "F6 chart",
    "F7 weeks",
    "F8 edits",
    "F9 new plan",
    "ctrl+g a clock, no plan",
    "escape leaves",
)
_PITCH = 3
"""Rows from one entry to the next: its title, its words, and a free one."""


def draw_home(
    desk: HomeDesk,
    columns: int,
    rows: int,
    look: Look,
    *,
    title: str = "classclock",
    keys: tuple[str, ...] = _KEYS,
) -> Drawing:
    inner = columns - 2
    heading = draw_heading(title, (printable(desk.club, 60),), inner, heading_rows(rows), look)
    typed = draw_typed_at_end("find", desk.search.text, inner, look)
    theme = look.theme
    alarm = look.on(theme.alarm_ground, theme.alarm_ink)
    short = f"! {desk.no_card}: F2 fills it in" if desk.no_card else ""
    foot = above(
        *(alarm.text(row, inner, bold=True) for row in wrap(short, inner, break_on_hyphens=False)),
        look.text(desk.notice, inner, ink=theme.doubtful, bold=True),
        *(look.text(row, inner, ink=theme.quiet) for row in key_rows(keys, inner)),
    )
    left = max(0, rows - len(heading) - 3 - len(foot))
    drawn = above(
        heading, look.gap(inner), typed, look.gap(inner), _list(desk, inner, left, look), foot
    )
    return look.box(drawn, columns, rows, across="middle")


def _list(desk: HomeDesk, columns: int, rows: int, look: Look) -> Drawing:
    entries = desk.entries
    if not entries:
        return look.box(look.text("nothing here has that name", columns), columns, rows)
    pitch = _PITCH if rows >= _PITCH * min(len(entries), 6) else 2
    fitting = max(1, rows // pitch)
    cursor = desk.search.cursor
    at, first = cursor.within(len(entries)), cursor.first_in_view(fitting, len(entries))
    drawn = [
        look.box(_entry(entry, columns, look, lit=number == at), columns, pitch)
        for number, entry in enumerate(entries[first : first + fitting], first)
    ]
    return look.box(above(*drawn), columns, rows)


def _entry(entry: HomeEntry, columns: int, look: Look, *, lit: bool) -> Drawing:
    theme = look.theme
    here = look.on(theme.bar) if lit else look
    edge = here.text("▌" if lit else "", 2)
    length = here.text(entry.length.rjust(7), 9, ink=theme.quiet)
    ink = {"unfinished": theme.doubtful, "faulty": theme.quiet}.get(entry.kind, theme.ink)
    sign = {"unfinished": "> ", "faulty": "! "}.get(entry.kind, "")
    title = here.text(sign + entry.title, columns - 11, ink=ink, bold=True)
    words = here.text(entry.words, columns - 11, ink=theme.quiet)
    return above(beside(edge, length, title), beside(edge, here.gap(9), words))
