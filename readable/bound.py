"""How large the room's texts could be in a box, found apart from any screen's own layout.

Plain arrangements are tried, and in them the smallest text is made as large as it can be, then the
next smallest. So this is what can be had at the least: a screen may do better, but has no excuse
to do worse.
"""

import re
from collections.abc import Collection, Mapping, Sequence
from functools import lru_cache
from math import ceil

from msgspec import Struct

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look
from classclock.units.cell_dots import CellDots
from readable.heights import capital_rows
from readable.marked_look import Said
from readable.room_texts import Role, Wanted

Texts = Mapping[Role, Sequence[str]]
Sizes = dict[Role, int]
"""Rows of each role's letters."""
_SIZES = (1, 3, *range(5, 25))
"""Rows in which words can be drawn."""
LANE: tuple[Role, ...] = ("key", "name", "tally", "load", "plates")
"""Those that stand in a row for each lane."""
_UNDER: tuple[Role, ...] = ("plates",)
"""Of those what may stand under the others."""
_CLOCK = 1.5
"""How much larger than any other letters it must be."""
_BETWEEN, _WITHIN = 2, 1
"""Columns between two lanes, and between two texts of one; before a number there is one more."""
_NUMBERS: tuple[Role, ...] = ("tally", "load", "plates")
_ABREAST = 7
"""Columns between two lines that stand side by side."""
_MOST_ACROSS = 4
_TOO_MANY = 1_000_000
_SHARES = (0.4, 0.5, 0.6, 0.7)
"""Of the columns, for what stands at the left of the lanes."""


def bounds(
    wanted: Sequence[Wanted], first: Sequence[Role], columns: int, rows: int, dots: CellDots
) -> dict[Role, float]:
    """A capital's height in rows that each role could have; nothing where not all has room.

    Those that come `first` are rather large than others.
    """
    sizes = _largest(_with_room(wanted), first, columns - 2, rows - 1, Terminal(dots=dots))
    return {role: capital(size, dots) for role, size in sizes.items()} if sizes else {}


def stand(
    wanted: Sequence[Wanted],
    small: Collection[Role],
    columns: int,
    rows: int,
    dots: CellDots,
    *,
    pages: int,
) -> bool:
    """Whether all has room if but these roles are in drawn letters; lanes on so many pages."""
    texts = _with_room(wanted, pages)
    sizes = {role: 1 if role in small or role == "coach" else _SIZES[1] for role in texts}
    return _fits(texts, sizes, columns - 2, rows - 1, terminal=Terminal(dots=dots))


def _with_room(wanted: Sequence[Wanted], pages: int = 1) -> dict[Role, tuple[str, ...]]:
    """What stands there, each as wide as it may come to be; of lanes as many as are on a page."""
    found: dict[Role, tuple[str, ...]] = {}
    for one in wanted:
        texts = sorted((max(one.widest, text, key=len) for text in one.texts), key=len)
        shown = ceil(len(texts) / pages) if one.role in LANE else len(texts)
        if texts:
            found[one.role] = (*texts[-shown:], *one.to_come)
    if "clock" in found:
        found["clock"] = tuple(re.sub(r"\d", "0", text) for text in found["clock"])
    return found


@lru_cache(maxsize=256)
def capital(size: int, dots: CellDots) -> float:
    """How high a capital is in letters of so many rows."""
    look = Look().with_dots(dots)
    drawn = look.letters("Hn", 999, size) if size > 1 else look.text("Hn", 2)
    return capital_rows(Said("Hn", 999, size, 0, look.theme.ink, look.theme.ground, drawn))


def _largest(
    texts: Texts, first: Sequence[Role], columns: int, rows: int, terminal: Terminal
) -> Sizes | None:
    """All grow together; who can't any more stays, and the others go on.

    Where each could grow, but not all, the last of them stays.
    """

    def fits(sizes: Sizes | None) -> bool:
        return sizes is not None and _fits(texts, sizes, columns, rows, terminal=terminal)

    sizes: Sizes = dict.fromkeys(texts, 1)
    if not fits(sizes):
        return None
    growing = set(texts) - {"coach"}
    while growing:
        larger = _grown(sizes, growing)
        if larger is not None and fits(larger):
            sizes = larger
            continue
        least = min(sizes[role] for role in growing)
        smallest = {role for role in growing if sizes[role] == least}
        stuck = {role for role in smallest if not fits(_grown(sizes, {role}))}
        growing -= stuck or {max(smallest, key=first.index)}
    return sizes


def _grown(sizes: Sizes, growing: set[Role]) -> Sizes | None:
    """The smallest of those one size larger; None where there is none."""
    least = min(sizes[role] for role in growing)
    larger = next((size for size in _SIZES if size > least), None)
    if larger is None:
        return None
    return {
        role: larger if role in growing and size == least else size for role, size in sizes.items()
    }


class _Screen(Struct, frozen=True):
    """What has to stand there, in given sizes."""

    clock: str
    high: int
    """Rows of the clock."""
    lines: tuple[tuple[str, int], ...]
    lanes: Mapping[Role, Sequence[str]]
    sizes: Sizes
    terminal: Terminal

    def fits(self, columns: int, rows: int) -> bool:
        return self._stacked(columns, rows) or (
            self._beside_the_clock(columns, rows) if self.clock else self._sides(columns, rows)
        )

    def _stacked(self, columns: int, rows: int) -> bool:
        return (
            self._clock_wide <= columns
            and self.high + self._above(columns) + self._lanes(columns) <= rows
        )

    def _beside_the_clock(self, columns: int, rows: int) -> bool:
        left = columns - self._clock_wide - _BETWEEN
        return left > 0 and max(self.high, self._above(left)) + self._lanes(columns) <= rows

    def _sides(self, columns: int, rows: int) -> bool:
        return any(
            max(self._above(left), self._lanes(columns - left - _BETWEEN)) <= rows
            for share in _SHARES
            for left in [round(columns * share)]
        )

    @property
    def _clock_wide(self) -> int:
        return _wide(self.clock, self.high, self.terminal)

    def _above(self, columns: int) -> int:
        """Rows that the lines take, side by side or broken; too many where a word is too wide."""
        wide = sum(_wide(text, size, self.terminal) + _ABREAST for text, size in self.lines)
        if self.lines and wide - _ABREAST <= columns:
            return max(size for _, size in self.lines)
        total = 0
        for text, size in self.lines:
            number, line = 0, ""
            for word in text.split():
                longer = f"{line} {word}" if line else word
                if line and _wide(longer, size, self.terminal) <= columns:
                    line = longer
                else:
                    number, line = number + 1, word
                if _wide(line, size, self.terminal) > columns:
                    return _TOO_MANY
            total += number * size
        return total

    def _lanes(self, columns: int) -> int:
        """Rows that all lanes take, in as many columns as there is room for."""
        if not self.lanes:
            return 0
        under = [role for role in self.lanes if role in _UNDER]
        return min(self._lanes_with(below, columns) for below in ([], under))

    def _lanes_with(self, under: Sequence[Role], columns: int) -> int:
        """With these under the others of a lane."""
        abreast = [role for role in self.lanes if role not in under]
        wide = max(map(self._row_wide, (abreast, under)))
        across = min(_MOST_ACROSS, (columns + _BETWEEN) // (wide + _BETWEEN))
        if not across:
            return _TOO_MANY
        count = max(len(texts) for texts in self.lanes.values())
        high = sum(max((self.sizes[role] for role in row), default=0) for row in (abreast, under))
        return -(-count // across) * high

    def _row_wide(self, row: Sequence[Role]) -> int:
        wide = sum(
            max(_wide(text, self.sizes[role], self.terminal) for text in self.lanes[role])
            + _WITHIN * (2 if role in _NUMBERS else 1)
            for role in row
        )
        return wide - _WITHIN if row else 0


def _fits(texts: Texts, sizes: Sizes, columns: int, rows: int, *, terminal: Terminal) -> bool:
    lanes = {role: texts[role] for role in LANE if role in texts}
    clock = texts["clock"][0] if "clock" in texts else ""
    least = max((_CLOCK * size for role, size in sizes.items() if role != "clock"), default=0)
    lines = tuple(
        (text, sizes[role])
        for role in texts
        if role not in (*LANE, "clock")
        for text in texts[role]
    )
    high = max(ceil(least), *sizes.values()) if clock else 0
    return _Screen(clock, high, lines, lanes, sizes, terminal).fits(columns, rows)


def _wide(text: str, rows: int, terminal: Terminal) -> int:
    return lettering_width(text, rows, terminal) if text else 0
