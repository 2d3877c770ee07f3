"""Where HELD stands: in the heading, or under the clock.

While a clock is held somebody asks what comes next, so the movements stay as large as they are.
"""

from functools import lru_cache
from math import ceil

from msgspec.structs import replace

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.live.wall.big_clock import WORD_ROWS
from classclock.screens.live.wall.heading import HeadingShown, fitted_heading
from classclock.screens.live.wall.wall_choice import LARGEST
from classclock.screens.live.wall.wall_layout import WallLayout


@lru_cache(maxsize=1)  # asked at each look while the clock is held
def stands_under_clock(shown: HeadingShown, wall: WallLayout, measure: CellMeasure) -> bool:
    """Whether movements would be in one row for it, and the clock stays the largest without.

    No lane moves for it, whichever it is.
    """
    content, box = shown.content, wall.clock.box
    others = max(size for group, size in wall.sizes if group != "clock")
    if box.height - WORD_ROWS < ceil(LARGEST * others):
        return False
    if measure.columns(content.emphasis, WORD_ROWS) > box.width:
        return False
    without = replace(shown, content=replace(content, emphasis=""))
    return _movements(shown, wall, measure) < WORD_ROWS <= _movements(without, wall, measure)


def _movements(shown: HeadingShown, wall: WallLayout, measure: CellMeasure) -> int:
    laid = fitted_heading(shown, wall.heading.width, wall.heading.height, measure)
    return laid.sizes.get("move", 0)
