"""Block digits of straight strokes: where only ASCII comes out, or outline type is too wide."""

from classclock.screens.canvas.cells import Drawing
from classclock.screens.canvas.letters.mosaic import HALVES, SIGNS, Mosaic, from_dots

# The strokes of a numeral: top, upper left, upper right, middle, lower left, lower right, bottom;
# down the middle; above, on and below it a point.
_STROKES = {
    "0": "t ul ur ll lr b",
    "1": "down",
    "2": "t ur m ll b",
    "3": "t ur m lr b",
    "4": "ul ur m lr",
    "5": "t ul m lr b",
    "6": "t ul m ll lr b",
    "7": "t ur lr",
    "8": "t ul ur m ll lr b",
    "9": "t ul ur m lr b",
    "-": "m",
    "+": "m plus",
    ":": "high low",
    ".": "foot",
    " ": "",
}
_LEAST_ROWS, _LEAST_ROWS_OF_SIGNS = 3, 5  # five strokes or gaps, one over the other
_NARROW = frozenset(":. ")


def can_draw(text: str) -> bool:
    return all(character in _STROKES for character in text)


def text_width(text: str, rows: int) -> int:
    """Columns that the text takes at this height."""
    digit, gap = _digit_columns(rows), _stroke(rows)
    widths = [gap if character in _NARROW else digit for character in text]
    return sum(widths) + gap * max(0, len(text) - 1)


def fit_rows(text: str, max_width: int, max_rows: int, *, signs: bool = False) -> int:
    """The largest height at which the text fits the box and can be told; 0 if none does."""
    least = _LEAST_ROWS_OF_SIGNS if signs else _LEAST_ROWS
    return next(
        (rows for rows in range(max_rows, least - 1, -1) if text_width(text, rows) <= max_width), 0
    )


def _digit_columns(rows: int) -> int:
    return max(3, round(rows * 1.5))  # 0.75 : 1, a cell being twice as high as wide


def _stroke(rows: int) -> int:
    return max(1, round(rows * 0.3))


def draw_text(text: str, rows: int, ink: str, ground: str, *, signs: bool = False) -> Drawing:
    """Digits and the signs of a clock; `signs` draws them with `#`, as high as `fit_rows` says."""
    mosaic: Mosaic = SIGNS if signs else HALVES
    gap = "." * _stroke(rows)
    glyphs = [_dots(character, rows, mosaic.down) for character in text]
    return from_dots([gap.join(parts) for parts in zip(*glyphs, strict=True)], mosaic, ink, ground)


def _dots(character: str, rows: int, down: int) -> list[str]:
    upright = _stroke(rows)
    level = max(1, round(upright * down / 2))
    wide = upright if character in _NARROW else _digit_columns(rows)
    high = rows * down
    middle = (high - level) // 2
    left, right, whole = (0, upright), (wide - upright, wide), (0, wide)
    centre = ((wide - upright) // 2, (wide - upright) // 2 + upright)
    upper, lower = (0, middle + level), (middle, high)
    boxes = {
        "t": (whole, (0, level)),
        "m": (whole, (middle, middle + level)),
        "b": (whole, (high - level, high)),
        "ul": (left, upper),
        "ur": (right, upper),
        "ll": (left, lower),
        "lr": (right, lower),
        "down": (centre, (0, high)),
        "plus": (centre, (middle - 2 * level, middle + 3 * level)),
        "high": (whole, (high // 4, high // 4 + level)),
        "low": (whole, (high - high // 4 - level, high - high // 4)),
        "foot": (whole, (high - level, high)),
    }
    strokes = [boxes[name] for name in _STROKES[character].split()]
    return [
        "".join(
            "#" if any(x0 <= x < x1 and y0 <= y < y1 for (x0, x1), (y0, y1) in strokes) else "."
            for x in range(wide)
        )
        for y in range(high)
    ]
