"""A lane's ribbon along the time axis, and for pieces of set work the work done.

Both end with the line of the cap, or of the whole work, in their last column.
"""

from collections.abc import Sequence

from classclock.screens.canvas.bar import draw_bar, eighth, goal_column, pieces, ticks
from classclock.screens.canvas.cells import Drawing, line, overlay
from classclock.wall.blocks import Block
from classclock.wall.colours.theme import Theme
from classclock.wall.hue import Hue

MINUTE = 60_000


def draw_ribbon(
    columns: int,
    rows: int,
    *,
    cap: int,
    rounds: Sequence[Block],
    elapsed: int,
    standing: Hue,
    theme: Theme,
    ground: str | None = None,
    stopped: bool = False,
    thin: bool = False,
    goal: int | None = None,
) -> Drawing:
    """Each block one round, as long as it took; `cap`, ends and `elapsed` in ms from go.

    The round in progress is darker, up to `elapsed`; beyond stand the minutes' marks. A lane that
    has stopped has no round in progress. `goal` is when that is over at the goal's pace, in ms.
    """
    under, shades, inner = ground or theme.ground, theme.shades(standing), columns - 1
    last = rounds[-1].end if rounds else 0
    reached = last if stopped else min(elapsed, cap)
    bar = pieces(inner, cap, rounds, reached, shades)
    marks = ticks(inner, cap, MINUTE)
    return draw_bar(
        inner,
        rows,
        bar,
        marks=marks,
        theme=theme,
        ground=under,
        hatch_ink=shades.running,
        thin=thin,
        goal=goal_column(goal, cap, inner),
    )


def draw_work(
    columns: int,
    rows: int,
    *,
    whole: int,
    rounds: Sequence[int],
    done: int,
    standing: Hue,
    theme: Theme,
    ground: str | None = None,
    finish: str = "",
    thin: bool = False,
    goal: int | None = None,
) -> Drawing:
    """The work done as a share of the whole, in reps; `rounds` are the reps at which rounds end.

    A finish is written in the bar's end, as it will be recorded. `goal` is the work that is done by
    now at the goal's pace, in reps.
    """
    under, shades, inner = ground or theme.ground, theme.shades(standing), columns - 1
    complete = [Block(end) for end in rounds if end <= done]
    bar = pieces(inner, whole, complete, done, shades)
    marks = tuple(min(inner - 1, eighth(end, whole, inner) // 8) for end in rounds if end < whole)
    drawn = draw_bar(
        inner,
        rows,
        bar,
        marks=marks,
        theme=theme,
        ground=under,
        hatch_ink=shades.running,
        thin=thin,
        goal=goal_column(goal, whole, inner),
    )
    label = f" {finish} "
    if not finish or len(label) > inner:
        return drawn
    sign = line(label, theme.key_ink, theme.key_ground, bold=True)
    return overlay(drawn, sign, inner - len(label), (rows - 1) // 2)
