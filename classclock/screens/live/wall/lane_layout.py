"""Where the parts of one lane stand, from its width and the rows it may have.

What a narrow lane has no room for goes in this order: projection, split, modification, ribbon.
Key, name and tally always stay.
"""

from msgspec import Struct

from classclock.screens.canvas.layout.nodes import Box

_LEAST_RIBBON = 14
_WIDE_RIBBON = 44
_GAP = 2
_READABLE = 3  # rows from which letters are drawn
_DETAIL_WIDTHS = (20, 16, 12)
_SPLIT = 5  # columns of 12:34


class Needs(Struct, frozen=True):
    """The longest name and the longest tally, in characters.

    `letter_columns` and `sign_columns` are what each takes on average in letters of three rows.
    """

    name_letters: int
    tally_signs: int
    letter_columns: float = 3.6
    sign_columns: int = 4


class LaneLayout(Struct, frozen=True):
    """One lane's parts, from its own upper left corner; None is what there is no room for."""

    width: int
    rows: int
    type_rows: int
    """How high key, name and tally are drawn: 1 and 2 are terminal text, 3 the dot letter."""
    key: Box
    name: Box
    tally: Box
    ribbon: Box | None
    modification: Box | None
    split: Box | None
    projection: Box | None

    @property
    def air(self) -> int:
        """Thirds of a row left free under keys and tallies in outline type, to part lanes."""
        return max(1, self.type_rows - 3) if self.type_rows > _READABLE else 0

    @property
    def sign(self) -> Box:
        """The sign before the tally: an entry is in doubt, or a call may be missing."""
        return Box(self.tally.x - 1, self.type_rows - 1, 1, 1)

    @property
    def thin_ribbon(self) -> bool:
        """Whether the ribbon is half a row high, to part it from the lines over and under it."""
        ribbon = self.ribbon
        return ribbon is not None and ribbon.height == 1 and (ribbon.y > 0 or self.rows == 1)


class _Widths(Struct, frozen=True):
    key: int
    name: int
    tally: int

    @property
    def total(self) -> int:
        return self.key + 1 + self.name + 1 + self.tally


def _widths(type_rows: int, needs: Needs, signs: int = 2) -> _Widths:
    """Columns at this height, as the drawn letters come out on average."""
    if type_rows < _READABLE:
        return _Widths(3, max(10, needs.name_letters), needs.tally_signs + 1)
    if type_rows == _READABLE:
        return _Widths(
            6, round(needs.letter_columns * needs.name_letters), needs.sign_columns * signs
        )
    return _Widths(
        -(-5 * type_rows // 2),
        round(1.1 * type_rows * needs.name_letters),
        signs * round(1.65 * type_rows),
    )


def lane_layout(width: int, rows: int, most_type: int, across: int, needs: Needs) -> LaneLayout:
    """The lane for a width in columns and at most `rows` rows, letters at most `most_type` high.

    Where lanes stand in two columns (`across`), the ribbon goes under the name if letters can be
    larger so.
    """
    reach = max(_READABLE, round(width / 33))  # higher letters would leave the ribbon too little
    beside = _highest(width - _GAP - _LEAST_RIBBON, min(rows, most_type, reach), needs)
    under = _highest(width, min(rows - 1, most_type), needs)
    # A row less is worth it if whole scores and details then fit beside each other.
    detailed = _highest(width - _DETAIL_WIDTHS[-1] - 1, under, needs, needs.tally_signs)
    if under - 1 <= detailed > _READABLE:
        under = detailed
    alone = _highest(width, min(rows, most_type, reach), needs)
    if under >= _READABLE and (under > beside if across > 1 else beside < _READABLE):
        return _ribbon_under(width, min(rows, under + 2), under, needs)
    if beside >= min(alone, _READABLE):
        return _ribbon_beside(width, min(rows, beside + 3), beside, needs)
    if alone >= _READABLE or rows == 1:
        return _ribbon_under(width, min(rows, alone + 1), alone, needs, ribbon=False)
    return _ribbon_under(width, 2, 1, needs)


def _highest(width: int, most: int, needs: Needs, signs: int = 2) -> int:
    """The highest letters, in rows, that fit; terminal text counts as one. 0: nothing fits."""
    fitting = (rows for rows in range(most, 0, -1) if _widths(rows, needs, signs).total <= width)
    highest = next(fitting, 0)
    return highest if highest >= _READABLE else min(1, highest)


def _ribbon_beside(width: int, rows: int, type_rows: int, needs: Needs) -> LaneLayout:
    least = _widths(type_rows, needs)
    full = _widths(type_rows, needs, needs.tally_signs)
    spare = width - least.total - _GAP - _LEAST_RIBBON
    detail = next((size for size in _DETAIL_WIDTHS if spare >= size * 3), 0)
    detail = detail or (_DETAIL_WIDTHS[-1] if spare > _DETAIL_WIDTHS[-1] else 0)
    spare -= detail + 1 if detail else 0
    longer = full.tally - least.tally
    tally_width = full.tally if spare >= longer + _WIDE_RIBBON - _LEAST_RIBBON else least.tally
    high = type_rows if rows > type_rows or rows == 1 else rows - 1
    key = Box(0, 0, least.key, type_rows)
    name = Box(key.width + 1, 0, least.name, type_rows)
    tally = Box(name.x + name.width + 1, 0, tally_width, type_rows)
    ribbon_x = tally.x + tally.width + _GAP
    ribbon = Box(ribbon_x, 0, width - ribbon_x - (detail + 1 if detail else 0), high)
    modification, split, projection = _details(
        width - detail, detail, 2 if type_rows == _READABLE else type_rows
    )
    return LaneLayout(
        width, rows, type_rows, key, name, tally, ribbon, modification, split, projection
    )


def _ribbon_under(
    width: int, rows: int, type_rows: int, needs: Needs, *, ribbon: bool = True
) -> LaneLayout:
    least = _widths(type_rows, needs)
    full = _widths(type_rows, needs, needs.tally_signs)
    tally_width = full.tally if full.total <= width else least.tally
    spare = width - least.total - (tally_width - least.tally) - 1
    # Without room for a ribbon there is none for details, which go before it.
    detail = min(_DETAIL_WIDTHS[0], spare) if ribbon and spare >= _DETAIL_WIDTHS[-1] else 0
    key = Box(0, 0, least.key, type_rows)
    tally = Box(width - tally_width, 0, tally_width, type_rows)
    name_x = key.width + 1
    name = Box(name_x, 0, tally.x - name_x - 1 - (detail + 1 if detail else 0), type_rows)
    below = Box(0, type_rows, width, 1) if ribbon else None
    modification, split, projection = _details(
        tally.x - 1 - detail, detail, 2 if type_rows == _READABLE else type_rows
    )
    return LaneLayout(
        width, rows, type_rows, key, name, tally, below, modification, split, projection
    )


def _details(x: int, width: int, rows: int) -> tuple[Box | None, Box | None, Box | None]:
    """Modification, split and projection in as many rows; the projection uppermost."""
    if not width:
        return None, None, None
    left = width - _SPLIT - 1
    beside = Box(x + width - _SPLIT, 0, _SPLIT, 1)
    if rows == 1:
        return (
            (Box(x, 0, left, 1), beside, None)
            if left >= _DETAIL_WIDTHS[-1] - 2
            else (
                Box(x, 0, width, 1),
                None,
                None,
            )
        )
    if rows == 2:
        return Box(x, 1, width, 1), beside, Box(x, 0, left, 1)
    high = min(2, rows - 2)
    return Box(x, high + 1, width, 1), Box(x, high, width, 1), Box(x, 0, width, high)
