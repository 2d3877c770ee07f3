"""Where everything on the wall stands, from the size of the terminal and the number of lanes.

The clock is always the largest thing. Lanes get as many rows as are left; above eight they stand
in two columns.
"""

from msgspec import Struct

from classclock.screens.canvas.layout.nodes import Box
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.live.wall.lane_layout import LaneLayout, Needs, lane_layout
from classclock.units.cell_dots import CellDots

MOST_LANES = 26
_ONE_COLUMN_MOST = 8
_CLOCK_SHARE = 0.25  # of the rows, before what is left over
_DIGIT, _COLON = 1.663, 0.945  # columns for each row, of the outline type
_CLOCK_WIDTH_SHARE = 0.63  # of the columns; the rest says what is being done
_BETWEEN = 3
_LETTER_WIDTHS: dict[CellDots, tuple[tuple[float, int], ...]] = {
    "sextants": ((3.6, 4),),
    "quadrants": ((3.9, 4), (3.6, 4)),
    "halves": ((5.1, 5), (4.2, 4), (3.6, 4)),
}
"""Columns that a letter of three rows takes on average, and a sign of a tally; then narrower ones.

Where even these are too wide a longer name comes as text, but keys and tallies stay large.
"""


class WallLayout(Struct, frozen=True):
    columns: int
    rows: int
    clock: Box
    heading: Box
    """What is being done, and the time of day."""
    status: Box
    lane: LaneLayout
    corners: tuple[tuple[int, int], ...]
    """Each lane's upper left corner, first down the left column, then down the right."""


def wall_layout(
    columns: int,
    rows: int,
    lanes: int,
    *,
    name_letters: int = 7,
    tally_signs: int = 4,
    dots: CellDots | None = "sextants",
) -> WallLayout:
    """The wall for a terminal of at least 60 x 18 and 1 to 26 lanes; ValueError otherwise.

    `name_letters` is the longest name's length, `tally_signs` the longest tally's (4 for 7+12).
    `dots` are what its letters are made of.
    """
    if columns < LEAST_COLUMNS or rows < LEAST_ROWS:
        raise ValueError(f"The wall needs at least {LEAST_COLUMNS} columns and {LEAST_ROWS} rows.")
    if not 1 <= lanes <= MOST_LANES:
        raise ValueError(f"The wall holds 1 to {MOST_LANES} lanes; run more in heats.")
    across = 1 if lanes <= _ONE_COLUMN_MOST else 2
    down = -(-lanes // across)
    usable = rows - 1  # the status line
    most_clock = next(
        high for high in range(rows, 0, -1) if _clock_width(high) <= columns * _CLOCK_WIDTH_SHARE
    )
    clock = min(most_clock, max(5, round(rows * _CLOCK_SHARE)))
    lane_width = (columns - 2 - _BETWEEN * (across - 1)) // across
    longest = max(4, min(name_letters, 9)), max(2, min(tally_signs, 5))
    least = max(1, (usable - clock) // down)
    tried = (
        lane_layout(lane_width, least, clock - 1, across, Needs(*longest, *each))
        for each in _LETTER_WIDTHS[dots or "sextants"]
    )
    lane = max(tried, key=lambda lane: lane.type_rows)  # of equals the first, with wider letters
    clock = min(most_clock, max(clock, usable - lane.rows * down - 2), usable - lane.rows * down)
    spare = usable - clock - lane.rows * down
    if spare == 0 and clock > max(4, lane.type_rows + 1):
        clock, spare = clock - 1, 1  # a row between the clock and the lanes
    top, under = (1 if spare > 1 else 0), (1 if spare > 0 else 0)
    start = top + clock + under + max(0, spare - 3) // 2
    clock_width = _clock_width(clock)
    heading = 1 + clock_width + _BETWEEN
    return WallLayout(
        columns,
        rows,
        clock=Box(1, top, clock_width, clock),
        heading=Box(heading, top, columns - heading - 1, clock),
        status=Box(0, rows - 1, columns, 1),
        lane=lane,
        corners=tuple(
            (1 + (number // down) * (lane_width + _BETWEEN), start + (number % down) * lane.rows)
            for number in range(lanes)
        ),
    )


def _clock_width(rows: int) -> int:
    """Columns that 00:00 takes."""
    return 4 * round(rows * _DIGIT) + round(rows * _COLON)
