"""From how far the wall can be read: the arithmetic of ISO 9241-3, pure.

A letter should be seen under at least 16 minutes of arc, better 20 to 22 (ISO 9241-3 (1992);
NUREG-0700, 1.3.1-4). Lengths on the screen are millimetres, distances in the room metres.
"""

from math import atan, hypot, radians, tan

from msgspec import Struct

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.arranged_drawing import air_under
from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.live.wall.wall_layout import WallLayout, lay_out_wall
from classclock.units.cell_dots import SIZES, CellDots, rows_of_dots
from classclock.wall.lane_bars import Share
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

LEAST_MINUTES = 16
PREFERRED_MINUTES = 20
_MM_PER_INCH = 25.4
_ASPECT = (16, 9)

TEXT_SHARE = 0.65
"""How much of a row a capital of terminal text takes; 0.6 to 0.7 in most fonts (worked out)."""
_OUTLINE_WORD_SHARE = 0.72
"""A capital's share of an outline word's rows: 660 of 917 font units (Source Sans Pro Bold)."""
_DOT_CAPITAL_ROWS: dict[CellDots, float] = {"sextants": 7 / 3, "quadrants": 5 / 2, "halves": 5 / 2}
_TALL_DOT_ROWS = 8 / 3
"""Sextants only: the others have no dot to spare."""


def character_height(distance: float, minutes: float = LEAST_MINUTES) -> float:
    """Millimetres a letter must be high to be seen under this angle: h = 2 d tan(a / 2)."""
    return 2000 * distance * tan(radians(minutes / 60) / 2)


def minutes_of_arc(height: float, distance: float) -> float:
    """The angle under which a letter of so many millimetres is seen."""
    return atan(height / (2000 * distance)) * 2 / radians(1) * 60


def farthest(height: float, minutes: float = LEAST_MINUTES) -> float:
    """The distance in metres up to which a letter of so many millimetres can be read."""
    return height / (2000 * tan(radians(minutes / 60) / 2))


def screen_height(diagonal: float) -> float:
    """Millimetres, of a 16:9 screen with this diagonal in inches."""
    return diagonal * _MM_PER_INCH * _ASPECT[1] / hypot(*_ASPECT)


def row_height(diagonal: float, rows: int) -> float:
    """Millimetres a row of a terminal that fills the screen is high."""
    return screen_height(diagonal) / rows


class Legible(Struct, frozen=True):
    """One kind of lettering on the wall and how it is seen."""

    what: str
    height: float
    """Of a capital or digit, in millimetres."""
    minutes: float
    """At the back of the room."""
    farthest: float
    """Metres up to which it is seen under 16 minutes of arc."""

    @property
    def reaches(self) -> bool:
        return self.minutes >= LEAST_MINUTES


def wall_legibility(
    diagonal: float,
    distance: float,
    columns: int,
    rows: int,
    lanes: int,
    *,
    dots: CellDots = "sextants",
) -> tuple[Legible, ...]:
    """Clock, keys and tallies, names, movements, text of one row, for a TV and how far the back is.

    Diagonal in inches, distance in metres; a terminal of at least 60 x 18 that fills the screen.
    """
    sizes, row = dict(usual_wall(columns, rows, lanes, dots).sizes), row_height(diagonal, rows)
    heights = {
        "clock": _numeral_rows(sizes["clock"], dots),
        "keys": _numeral_rows(sizes["key"], dots, air=True),
        "tallies": _numeral_rows(sizes["tally"], dots, air=True),
        "names": _word_rows(sizes["name"], dots),
        "movements": _word_rows(sizes["move"], dots),
        "small text": TEXT_SHARE,
    }
    return tuple(
        Legible(what, high * row, minutes_of_arc(high * row, distance), farthest(high * row))
        for what, high in heights.items()
    )


def usual_wall(columns: int, rows: int, lanes: int, dots: CellDots) -> WallLayout:
    """A wall over the foot's row: names of seven letters, rounds, two movements."""
    moves = ("6 box step-over", "12 squat")
    content = WallContent("00:00", "", "", stations=moves, longest_stations=moves)
    everybody = [
        LaneContent(chr(ord("a") + number), "Saoirse", "12", "12", bar=Share(1, (), 0, ""))
        for number in range(lanes)
    ]
    return lay_out_wall(content, everybody, columns, rows - 1, CellMeasure(Terminal(dots=dots)))


def _numeral_rows(size: int, dots: CellDots, *, air: bool = False) -> float:
    """Rows that a numeral is high; keys and tallies leave some dots free below."""
    if size < 3:
        return TEXT_SHARE
    if size == 3:
        return _TALL_DOT_ROWS if dots == "sextants" else _DOT_CAPITAL_ROWS[dots]
    _, down = SIZES[dots]
    return size - (rows_of_dots(air_under(size), down) / down if air else 0)


def _word_rows(size: int, dots: CellDots) -> float:
    if size < 3:
        return TEXT_SHARE
    return _DOT_CAPITAL_ROWS[dots] if size < 5 else size * _OUTLINE_WORD_SHARE
