"""How high letters are: a capital's ink, in rows of the terminal and in minutes of arc."""

from collections import Counter
from functools import lru_cache
from itertools import groupby

from PIL import Image

from classclock.screens.canvas.cells import Drawing, width
from classclock.screens.live.wall.readable import (
    TEXT_SHARE,
    minutes_of_arc,
    row_height,
)
from readable.bitmap import grey, picture
from readable.marked_look import Said

INCHES, METRES = 55, 10
"""The TV and the distance at which all is measured."""
_FINE = (4, 6)
"""Dots of a cell into which halves, thirds and quarters fall exactly."""
_X_HEIGHT = 5 / 7
"""A letter without an ascender beside a capital: of the dot letters, and nearly of the outline."""
_LOW = set(" acemnorsuvwxzgpqy-.,")


def minutes(rows: float, of: int) -> float:
    """The angle of a letter so many rows high in a window of `of` rows, at ten metres."""
    return minutes_of_arc(rows * row_height(INCHES, of), METRES)


def capital_rows(said: Said) -> float:
    """The height of a capital or digit of this text as it came out, in rows."""
    if not said.large:
        return TEXT_SHARE
    return _measured(said.drawing, said.text, said.ink, said.ground)


@lru_cache(maxsize=4096)
def _measured(drawing: Drawing, text: str, ink: str, ground: str) -> float:
    seen = picture(drawing, width(drawing), (width(drawing) * _FINE[0], len(drawing) * _FINE[1]))
    signs = list(_signs(seen, grey(ink), grey(ground)))
    if not signs:
        return 0.0
    baseline = Counter(bottom for _, bottom in signs).most_common(1)[0][0]
    high = (baseline - min(top for top, _ in signs)) / _FINE[1]
    return high / _X_HEIGHT if set(text) <= _LOW else high


def _signs(seen: Image.Image, ink: int, ground: int) -> "list[tuple[int, int]]":
    """The first dot with ink and the one after the last, of each run of columns that have any."""
    middle = (ink + ground) / 2
    columns = []
    for x in range(seen.width):
        lights = seen.crop((x, 0, x + 1, seen.height)).tobytes()
        inked = [y for y, light in enumerate(lights) if (light > middle) == (ink > ground)]
        columns.append((inked[0], inked[-1] + 1) if inked else None)
    runs = []
    for full, run in groupby(columns, key=lambda column: column is not None):
        if full:
            ends = [column for column in run if column is not None]
            runs.append((min(top for top, _ in ends), max(bottom for _, bottom in ends)))
    return runs
