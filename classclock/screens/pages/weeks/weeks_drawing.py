"""How the last weeks are drawn: a row a pattern, a column a week, a block a class."""

from collections.abc import Sequence

from msgspec import Struct
from rich.cells import cell_len

from classclock.planning.patterns import LastWeeks, short_day
from classclock.planning.weeks import Weeks
from classclock.report.weeks_text import count_of, notes, week_columns
from classclock.screens.canvas.bar import draw_bar, pieces
from classclock.screens.canvas.cells import Drawing, above, beside
from classclock.screens.canvas.look import Look
from classclock.screens.canvas.page_heading import draw_heading, heading_rows
from classclock.screens.pages.weeks.weeks_desk import WeeksBook, WeeksDesk
from classclock.wall.blocks import Block

_LABEL = 14
_MOST_WIDE = 34
"""Columns of a week: a wider one says no more."""
_MOST_HIGH = 4
_PLANNED = "□"
_NUMBER = 3
_LEAST_FULL = 4
"""So many classes fill a bar at least: one class alone is no full bar."""
_KEYS = "up, down: scroll what is said   escape: back"


def draw_weeks(desk: WeeksDesk, columns: int, rows: int, look: Look) -> Drawing:
    """The page in a box of this size."""
    inner = columns - 2
    quiet = look.theme.quiet
    foot = look.text(desk.notice or _KEYS, inner, ink=quiet)
    if desk.book is None:
        return look.box(above(look.gap(inner, rows - 1), foot), columns, rows, across="middle")
    weeks = desk.book.weeks
    said = f"classes held until {short_day(weeks.today)}"
    heading = draw_heading(
        "The last weeks", (said, "a class counts once in a row"), inner, heading_rows(rows), look
    )
    left = rows - len(heading) - len(foot)
    lines = _wrapped(notes(weeks, desk.book.without_plan), inner)
    bars = _bars(weeks, inner, left - min(len(lines), max(1, left // 5)), look)
    spare = left - len(bars)
    below = _below(lines, desk.first.at, inner, spare, look)
    return look.box(above(heading, bars, below, foot), columns, rows, across="middle")


def lines_said(book: WeeksBook | None, columns: int) -> int:
    """How many lines stand under the bars on a screen so wide."""
    return len(_wrapped(notes(book.weeks, book.without_plan), columns - 2)) if book else 0


def _below(lines: Sequence[str], top: int, columns: int, rows: int, look: Look) -> Drawing:
    gap = 1 if rows > len(lines) else 0
    first = max(0, min(top, len(lines) - rows + gap))
    shown = lines[first : first + rows - gap]
    drawn = above(look.gap(columns, gap), *(look.text(line, columns) for line in shown))
    return look.box(drawn, columns, rows)


class _Grid(Struct, frozen=True):
    """What all cells have in common."""

    wide: int
    """Columns of a week."""
    high: int
    """Rows of a pattern."""
    most: int
    """The classes that fill a bar."""
    look: Look

    @property
    def bar(self) -> int:
        """Rows of a bar: a free one stands under it where there are several."""
        return max(1, self.high - 1)

    @property
    def room(self) -> int:
        """Columns of a bar."""
        return self.wide - _NUMBER - (2 if self.wide > _NUMBER + 6 else 1)

    def text(self, words: str, columns: int, *, bold: bool) -> Drawing:
        """Words at half the height of the bars."""
        ink = self.look.theme.ink if bold else self.look.theme.quiet
        drawn = self.look.text(words, columns, ink=ink, bold=bold)
        return self.look.box(drawn, columns, self.bar, down="middle")


def _bars(weeks: Weeks, columns: int, rows: int, look: Look) -> Drawing:
    """Both tables, as high as there is room for."""
    shown = week_columns(weeks)
    wide = min(_MOST_WIDE, (columns - _LABEL) // len(shown))
    tables = (tuple(shown[0][1].patterns), tuple(shown[0][1].lengths))
    lines = sum(map(len, tables))
    roomy = rows >= 2 * lines + 4
    high = max(1, min(_MOST_HIGH, (rows - 4) // lines)) if roomy else 1
    classes = _numbers("classes", [held.classes for _, held in shown], wide, look)
    parts = [look.gap(columns)] if roomy else []
    parts += [_titles(shown, wide, look), *([classes] if roomy else [])]
    for names in tables:
        counts = {name: [count_of(held, name) for _, held in shown] for name in names}
        most = max(_LEAST_FULL, *(max(row) for row in counts.values()))
        if names is tables[1] and rows >= lines + 2:
            parts.append(look.text("hard piece", columns, ink=look.theme.quiet))
        for at, name in enumerate(names):
            under = look.on(look.theme.band) if at % 2 else look
            parts.append(_row(name, counts[name], _Grid(wide, high, most, under)))
    return above(*(look.box(part, columns, len(part)) for part in parts))


def _titles(shown: Sequence[tuple[str, LastWeeks]], wide: int, look: Look) -> Drawing:
    """The weeks, this one on a ground of its own."""
    theme = look.theme
    cells = [look.text("week of", _LABEL, ink=theme.quiet)]
    for number, (title, _) in enumerate(shown):
        this = number == len(shown) - 2
        here = look.on(theme.key_ground, theme.key_ink) if this else look
        cells += [here.text(title, wide - 1, bold=True), look.gap(1)]
    return beside(*cells)


def _numbers(label: str, numbers: Sequence[int], wide: int, look: Look) -> Drawing:
    quiet = look.theme.quiet
    cells = (look.text(f"{number:>2}", wide, ink=quiet) for number in numbers)
    return beside(look.text(label, _LABEL, ink=quiet), *cells)


def _row(name: str, counts: Sequence[int], grid: _Grid) -> Drawing:
    *held, planned = counts
    label = grid.text(name, _LABEL, bold=True)
    cells = [_cell(count, _held(count, grid), grid) for count in held]
    drawn = beside(label, *cells, _cell(planned, _planned(planned, grid), grid))
    return grid.look.box(drawn, _LABEL + len(counts) * grid.wide, grid.high)


def _cell(count: int, bar: Drawing, grid: _Grid) -> Drawing:
    number = grid.text(f"{count or '.':>2}", _NUMBER, bold=count > 0)
    gap = grid.look.gap(grid.wide - _NUMBER - grid.room, grid.bar)
    return beside(number, bar, gap)


def _held(count: int, grid: _Grid) -> Drawing:
    """A block a class, as the rounds of a ribbon are; one bar where blocks would be too narrow."""
    theme = grid.look.theme
    parted = grid.most <= grid.room
    blocks = tuple(Block(end) for end in range(1, count + 1)) if parted else (Block(count),)
    drawn = draw_bar(
        grid.room,
        grid.bar,
        pieces(grid.room, grid.most, blocks, count, theme.ahead),
        marks=(),
        theme=theme,
        ground=theme.ground,
        hatch_ink=theme.ground,
    )
    return grid.look.box(drawn, grid.room, grid.bar)


def _planned(count: int, grid: _Grid) -> Drawing:
    """Hollow signs: told apart by their shape, whatever the colours."""
    signs = count if grid.most <= grid.room else -(-count * grid.room // grid.most)
    return grid.text(_PLANNED * signs, grid.room, bold=False)


def _wrapped(lines: Sequence[str], columns: int) -> tuple[str, ...]:
    """Broken between words."""
    wrapped: list[str] = []
    for line in lines:
        first, *words = line.split(" ")
        row = first
        for word in words:
            if cell_len(row) + 1 + cell_len(word) > columns:
                wrapped.append(row)
                row = f"  {word}"
            else:
                row += f" {word}"
        wrapped.append(row)
    return tuple(wrapped)
