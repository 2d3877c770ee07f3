"""A screen as text that a review can read: its characters, and under them each cell's colours."""

from collections.abc import Iterator, Sequence
from itertools import groupby

from msgspec import Struct
from rich.cells import cell_len
from rich.segment import Segment
from rich.style import Style

from tests.screens.roles import SURFACES, role

EMPTY, FULL = " ", "█"
LEGEND = "cells:colour/ground in each row, * for bold; no colour where nothing but ground is seen"


class Cells(Struct, frozen=True):
    """Neighbours that look alike. Empty: nothing of it is seen."""

    count: int
    ink: str
    """With a star before it where it is bold."""
    ground: str

    def __str__(self) -> str:
        return f"{self.count}:{self.ink}/{self.ground}"

    def with_next(self, other: "Cells") -> "Cells | None":
        """Both as one run, where nothing that is seen of the one is otherwise in the other."""
        ink, ground = self.ink or other.ink, self.ground or other.ground
        if (other.ink or ink, other.ground or ground) != (ink, ground):
            return None
        return Cells(self.count + other.count, ink, ground)


def picture_text(rows: Sequence[Sequence[Segment]]) -> str:
    """The characters of all rows, and then the colours; rows of the same colours are told once."""
    seen = [_signs(row) for row in rows]
    characters = ["".join(sign for sign, _ in row).rstrip() for row in seen]
    colours = [" ".join(map(str, _runs([cells for _, cells in row]))) for row in seen]
    return "\n".join([*characters, "", LEGEND, *_numbered(colours), ""])


def _signs(row: Sequence[Segment]) -> list[tuple[str, Cells]]:
    return [
        _sign(sign, segment.style or Style()) for segment in row for sign in segment.text if sign
    ]


def _sign(sign: str, style: Style) -> tuple[str, Cells]:
    ink, ground = _colour(style, "color"), _colour(style, "bgcolor")
    wide = cell_len(sign)
    if style.reverse:
        ink, ground = ground, ink
    # A space on what no letter stands on is a block of that colour.
    if sign == FULL or (sign == EMPTY and ground not in SURFACES):
        return FULL, Cells(wide, ink if sign == FULL else ground, "")
    if sign == EMPTY or (ink == ground and ground in SURFACES):  # the latter: a smooth edge
        return sign, Cells(wide, "", ground)
    if ink == ground:
        return sign, Cells(wide, ink, "")
    return sign, Cells(wide, f"*{ink}" if style.bold else ink, ground)


def _colour(style: Style, which: str) -> str:
    colour = getattr(style, which)
    return "none" if colour is None or colour.is_default else role(colour.get_truecolor().hex)


def _runs(cells: Sequence[Cells]) -> Iterator[Cells]:
    run, *others = cells
    for other in others:
        longer = run.with_next(other)
        if longer is None:
            yield run
        run = longer or other
    yield run


def _numbered(rows: Sequence[str]) -> Iterator[str]:
    """Each row's number, counted from 1, before it; those alike and in a row as 4-7."""
    for text, alike in groupby(enumerate(rows, start=1), key=lambda row: row[1]):
        first, *more = (number for number, _ in alike)
        yield f"{f'{first}-{more[-1]}' if more else first}  {text}"
