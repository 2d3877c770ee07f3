"""Lines of text under each other, as large as their box allows.

Every line says how much it matters. What matters less is dropped, or set smaller, before anything
that matters more is; the type is as large as then fits.
"""

import re
from collections.abc import Iterator, Sequence
from typing import Literal

from msgspec import Struct

from classclock.machine.terminal import Terminal
from classclock.screens.canvas.cells import Drawing, above, blank, place
from classclock.screens.canvas.letters import outline_type
from classclock.screens.canvas.letters.lettering import lettering_width
from classclock.screens.canvas.look import Look

Size = Literal["title", "main", "second", "plain"]
_MOST_PIECES = 3
"""Into so many pieces a large line is broken at most."""
_SPARE = 5
"""Lines that go before the type gets smaller: mostly gaps."""
_BREAKS = re.compile(r"\s+(?!(?:kg|lb|m|cal)\b)")
"""Between words, but not between a number and its unit."""
_AIR = 3
"""Thirds of a row left free under capitals and numerals, which fill their rows."""


class Line(Struct, frozen=True):
    """A line; with no text it is a gap. Colours are the look's own unless given."""

    text: str = ""
    size: Size = "plain"
    keep: int = 0
    """0 always stays; the larger, the sooner it goes."""
    ink: str = ""
    ground: str = ""
    bold: bool = False
    indent: int = 0
    """Columns."""


class Heights(Struct, frozen=True):
    """Rows of each size of type."""

    title: int
    main: int
    second: int
    plain: int = 1

    def of(self, size: Size) -> int:
        return {
            "title": self.title,
            "main": self.main,
            "second": self.second,
            "plain": self.plain,
        }[size]


_SMALL = (Heights(5, 1, 1), Heights(3, 1, 1), Heights(1, 1, 1))
_LARGE = (
    Heights(15, 10, 7),
    Heights(13, 9, 6),
    Heights(12, 8, 6),
    Heights(10, 7, 5),
    Heights(9, 6, 5),
    Heights(8, 6, 3),
    Heights(7, 5, 3),
    Heights(6, 3, 3),
    Heights(6, 3, 1),
    Heights(5, 3, 1),
    Heights(3, 3, 1),
)


def stack(lines: Sequence[Line], columns: int, rows: int, look: Look) -> Drawing:
    """The lines in a box of this size, from its upper left corner."""
    heights, pieces = _set(lines, columns, rows, look.terminal)
    drawn = [_draw(one, heights.of(one.size), columns, look) for one in pieces]
    return look.box(above(*drawn) if drawn else look.gap(columns, 0), columns, rows)


def heights(lines: Sequence[Line], columns: int, rows: int, look: Look) -> Heights:
    """Rows that each size of type would be high in this box."""
    return _set(lines, columns, rows, look.terminal)[0]


def least_rows(lines: Sequence[Line], columns: int, look: Look) -> int:
    """Rows that the lines which always stay take in plain text."""
    kept = [line for line in lines if not line.keep]
    return len(_pieces(kept, _SMALL[-1], columns, look.terminal) or ())


def _set(
    lines: Sequence[Line], columns: int, rows: int, terminal: Terminal
) -> tuple[Heights, tuple[Line, ...]]:
    """The best way that fits: the heights, and the lines that stay, broken to the width."""
    for heights, keep in _ways(lines, terminal):
        kept = [line for line in lines if line.keep <= keep]
        if sum(heights.of(line.size if line.text else "plain") for line in kept) > rows:
            continue  # not even unbroken; most ways end here, before any type is measured
        pieces = _pieces(kept, heights, columns, terminal)
        if pieces is not None and sum(heights.of(one.size) for one in pieces) <= rows:
            return heights, tuple(pieces)
    kept = [line for line in lines if not line.keep]
    return _SMALL[-1], tuple(_pieces(kept, _SMALL[-1], columns, terminal) or ())


def _ways(lines: Sequence[Line], terminal: Terminal) -> Iterator[tuple[Heights, int]]:
    """What to try, the best first: readable from afar with all lines, then with fewer, then small.

    Lines that matter (`keep` up to 2) may be set small, but are not given up for larger type.
    """
    levels = sorted({line.keep for line in lines}, reverse=True) or [0]
    large = _LARGE if terminal.dots else ()
    spare = [keep for keep in levels if keep >= _SPARE]
    some = next((keep for keep in levels if keep < _SPARE), 0)
    for heights in large:
        yield from ((heights, keep) for keep in (*spare, some))
    for keep in (level for level in levels if 2 <= level < some):
        yield from ((heights, keep) for heights in large[-4:])
    for keep in levels:
        yield from ((heights, keep) for heights in (_SMALL if terminal.dots else _SMALL[-1:]))


def _pieces(
    lines: Sequence[Line], heights: Heights, columns: int, terminal: Terminal
) -> list[Line] | None:
    """The lines, broken where they are too wide; None if one can't be at this height."""
    pieces: list[Line] = []
    for line in lines:
        high = heights.of(line.size)
        if not line.text:
            pieces.append(Line(ground=line.ground))
            continue
        parts = _broken(line.text, high, columns - line.indent, terminal)
        if high > 1 and (len(parts) > _MOST_PIECES or not _all_fit(parts, high, columns, terminal)):
            return None
        pieces += [
            Line(part, line.size, line.keep, line.ink, line.ground, line.bold, line.indent)
            for part in parts
        ]
    return pieces


def _all_fit(parts: Sequence[str], rows: int, columns: int, terminal: Terminal) -> bool:
    return all(lettering_width(part, rows, terminal) <= columns for part in parts)


def _broken(text: str, rows: int, columns: int, terminal: Terminal) -> list[str]:
    parts: list[str] = []
    for word in _BREAKS.split(text):
        longer = f"{parts[-1]} {word}" if parts else word
        if parts and lettering_width(longer, rows, terminal) <= columns:
            parts[-1] = longer
        else:
            parts.append(word)
    return parts


def _draw(line: Line, rows: int, columns: int, look: Look) -> Drawing:
    ground = line.ground or look.theme.ground
    ink = line.ink or look.theme.ink
    width = columns - line.indent
    if not line.text:
        return blank(columns, rows, ground)
    if rows == 1:
        drawn = look.text(line.text, width, ink=ink, ground=ground, bold=line.bold)
    else:
        air = _AIR if outline_type.fills_rows(line.text) else 0
        drawn = look.letters(line.text, width, rows, ink=ink, ground=ground, air=air)
    return place(place(drawn, width, rows, ground), columns, rows, ground, across="right")
