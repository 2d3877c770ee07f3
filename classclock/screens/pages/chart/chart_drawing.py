"""How the chart is drawn: names down, benchmarks across; only what is in view."""

from datetime import date

from rich.cells import cell_len

from classclock.records.bests import long_day
from classclock.report.chart import Cell, ChartRow
from classclock.report.chart_text import MODIFIED, NEW, OTHERS
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.chart.chart_desk import ChartDesk
from classclock.units.printable import printable
from classclock.wall.kept_off import DASH

_LEGEND = f"{MODIFIED} modified   {NEW} new this month   {OTHERS} another best, otherwise"
_KEYS = (
    "enter: their page   arrows, page up, down: move   tab: sort by this   "
    "F6: who is here   type to find   escape leaves"
)
_KEYS_SHORT = "enter: page   tab: sort   F6: here   escape leaves"
_SCORE, _DAY = 10, 9
_CELL = _SCORE + 1 + _DAY + 2
"""Columns: the score with its signs, the day, and a gap."""


def draw_chart(desk: ChartDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The chart in a box of this size."""
    inner = columns - 2
    count = len(desk.rows)
    order = f"by {printable(desk.sort, 30)}, best first" if desk.sort != "name" else "by name"
    words = f"{count} athlete{'' if count == 1 else 's'}, {order}"
    here = desk.here_words if desk.only_here else "everybody"
    heading = draw_heading("Chart", (words, here), inner, heading_rows(rows), look)
    keys = _KEYS if cell_len(_KEYS) <= inner else _KEYS_SHORT
    found = f"find: {printable(desk.search.text)}" if desk.search.text else _LEGEND
    foot = above(
        look.text(desk.notice or _detail(desk), inner, bold=True),
        look.text(found, inner, ink=look.theme.quiet),
        look.text(keys, inner, ink=look.theme.quiet),
    )
    left = max(0, rows - len(heading) - 1 - len(foot))
    drawn = above(heading, look.gap(inner), _table(desk, inner, left, look), foot)
    return look.box(drawn, columns, rows, across="middle")


def _table(desk: ChartDesk, columns: int, rows: int, look: Look) -> Drawing:
    if not desk.rows:
        empty = (
            "nobody here has that name"
            if desk.search.text
            else "no bests yet: they come with classes"
        )
        return look.box(look.text("" if desk.notice else empty, columns), columns, rows)
    names = 22 if columns >= 100 else 14
    across = max(1, (columns - names) // _CELL)
    column, benchmarks = desk.across.at, desk.benchmarks
    first = desk.across.first_in_view(across, len(benchmarks))
    places = range(first, min(first + across, len(benchmarks)))
    head = [look.gap(names)]
    for place in places:
        here = look.on(look.theme.key_ground, look.theme.key_ink) if place == column else look
        title = here.text(printable(benchmarks[place]), _CELL - 2, bold=True)
        head += [title, look.gap(2)]
    fitting = max(1, rows - 1)
    cursor = desk.search.cursor
    top = cursor.first_in_view(fitting, len(desk.rows))
    drawn = [look.box(beside(*head), columns, 1)]
    for number, row in enumerate(desk.rows[top : top + fitting], top):
        lit = number == cursor.at
        here = look.on(look.theme.bar) if lit else look
        cells = [
            _cell(row.cells[place], here, off=desk.kept_off(row), lit=lit and place == column)
            for place in places
        ]
        name = beside(
            here.text("▌" if lit else "", 1),
            here.text(printable(row.name, 60), names - 2, bold=True),
            here.gap(1),
        )
        drawn.append(here.box(beside(name, *cells), columns, 1))
    return look.box(above(*drawn), columns, rows)


def _cell(cell: Cell | None, look: Look, *, off: bool, lit: bool) -> Drawing:
    theme = look.theme
    if cell is None or off:
        words = DASH if cell is not None else ""
        return look.text(words.rjust(_SCORE), _CELL, ink=theme.quiet)
    before = MODIFIED if cell.modified else ""
    after = f"{NEW if cell.new else ' '}{OTHERS if cell.others else ' '}"
    score = f"{before}{printable(cell.best.score, 8)}"
    ink = theme.ahead.text if cell.new else theme.quiet if cell.modified else theme.ink
    ink = theme.key_ink if lit else ink
    day = date.fromisoformat(cell.best.day)
    under = look.on(theme.key_ground) if lit else look
    return beside(
        under.text(f"{score.rjust(_SCORE - 2)}{after}", _SCORE, ink=ink, bold=not cell.modified),
        look.gap(1),
        look.text(f"{day:%d %b %y}", _DAY + 2, ink=theme.quiet),
    )


def _detail(desk: ChartDesk) -> str:
    """The highlighted best in words, with those under other terms."""
    row = desk.highlighted
    if row is None or not desk.benchmarks:
        return ""
    return _cell_words(row, row.cells[desk.across.at], desk.benchmark, off=desk.kept_off(row))


def _cell_words(row: ChartRow, cell: Cell | None, benchmark: str, *, off: bool) -> str:
    who = f"{printable(row.name, 40)}, {printable(benchmark, 40)}"
    if off:
        return f"{who}: kept off the wall"
    if cell is None:
        return f"{who}: not yet"
    words = [f"{cell.best.score} on {long_day(cell.best.day)}", str(cell.best.terms)]
    words += [f"{one.score} with {one.terms}" for one in cell.others]
    return printable(f"{who}: {'; '.join(words)}", 400)
