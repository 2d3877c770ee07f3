"""An interval piece's lane: a box for each interval with its number."""

from collections.abc import Sequence
from functools import lru_cache

from classclock.screens.canvas.cells import Drawing, above, beside, blank, line, place
from classclock.screens.canvas.letters import dot_type
from classclock.tally.signs import SIGNS
from classclock.units.cell_dots import CellDots
from classclock.wall.colours.theme import Theme
from classclock.wall.hue import Hue

_LEAST = 4  # columns that a box and its gap take at least
_MOST = 14


def draw_interval_strip(
    columns: int,
    rows: int,
    *,
    numbers: Sequence[str | None],
    current: int | None,
    standing: Hue,
    theme: Theme,
    ground: str | None = None,
    dots: CellDots | None = "sextants",
) -> Drawing:
    """`numbers` are what each interval has, None if nobody gave it; `current` counts from 0.

    One that is over and lacks its number says so by its sign. The current one is outlined. Where
    not all fit, those around the current one are shown. `dots`: numbers in dot letters where there
    is room, for terminals with sextants.
    """
    return _draw(
        columns,
        rows,
        numbers=tuple(numbers),
        current=current,
        standing=standing,
        theme=theme,
        ground=ground or theme.ground,
        dots=dots,
    )


@lru_cache(maxsize=256)
def _draw(
    columns: int,
    rows: int,
    *,
    numbers: tuple[str | None, ...],
    current: int | None,
    standing: Hue,
    theme: Theme,
    ground: str,
    dots: CellDots | None,
) -> Drawing:
    count = max(1, min(len(numbers), columns // _LEAST))
    each = min(_MOST, columns // count)
    reached = len(numbers) if current is None else current
    first = max(0, min(reached - count + 2, len(numbers) - count))
    shades = theme.shades(standing)
    boxes = []
    for at, number in enumerate(numbers[first : first + count], first):
        if at == current:
            box = _outlined(number or "", each - 1, rows, theme, ground, dots=dots)
        elif number is not None:
            box = _box(number, each - 1, rows, theme.key_ink, shades.block, dots=dots)
        elif at < reached:
            box = _box(
                SIGNS["not given"].sign, each - 1, rows, theme.ground, theme.doubtful, dots=dots
            )
        else:
            box = _box(str(at + 1), each - 1, rows, theme.quiet, theme.bar, dots=None)
        boxes.append(beside(box, blank(1, rows, ground)))
    return place(beside(*boxes), columns, rows, ground)


def _box(
    text: str, columns: int, rows: int, ink: str, ground: str, *, dots: CellDots | None
) -> Drawing:
    large = (
        dots
        and rows >= dot_type.ROWS
        and dot_type.can_draw(text, dots)
        # A 6 at the edge would look like a 5.
        and dot_type.least_width(text, dot_type.ROWS, dots) <= columns - 2
    )
    drawn = (
        dot_type.draw_label(text, ink, ground, dots)
        if dots and large
        else line(text, ink, ground, bold=True)
    )
    return place(drawn, columns, rows, ground, across="middle", down="middle")


def _outlined(
    text: str, columns: int, rows: int, theme: Theme, ground: str, *, dots: CellDots | None
) -> Drawing:
    if rows < 3:
        sides = line("▌", theme.ink, ground), line("▐", theme.ink, ground)
        inside = _box(text, columns - 2, rows, theme.ink, ground, dots=dots)
        return beside(sides[0] * rows, inside, sides[1] * rows)
    inside = _box(text, columns - 2, rows - 2, theme.ink, ground, dots=dots)
    edge = line("│", theme.ink, ground) * (rows - 2)
    return above(
        line("┌" + "─" * (columns - 2) + "┐", theme.ink, ground),
        beside(edge, inside, edge),
        line("└" + "─" * (columns - 2) + "┘", theme.ink, ground),
    )
