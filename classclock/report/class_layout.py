"""How large a class's names and scores stand on A4: as large as all the rest leaves them, whole."""

from collections.abc import Callable

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.care import AFTER_A_CLASS
from classclock.report.class_report import ClassReport, LaneLine, PieceReport
from classclock.report.paper import LONG_SIDE, POINT, REGULAR, SHORT_SIDE, ems, lines_of

MARGIN = 11.0
"""Millimetres round a page."""
_WIDE, _HIGH = SHORT_SIDE - 2 * MARGIN, LONG_SIDE - 2 * MARGIN - 3
"""Millimetres that a page holds; what browsers round up is left."""
GAP = 7.0
"""Millimetres between two columns."""
_LARGEST, _LEAST, _STEP = 24.0, 8.5, 0.5
"""Points of a name; with less than the least it goes on to another page."""
_SHARES = (0.45, 0.36, 0.27)
"""Of a column for what stands beside a score."""
_LEAST_ASIDE, _ASIDES = 7.0, (0.7, 0.62, 0.55)
"""Points of what stands there at least; parts of a name's size that it may have where it fits."""
_UNBROKEN = 20.0
"""Em of a person's name that is never broken."""
RANK = 2.0
"""Em that a rank takes."""
SMALL = 8.5
"""Points of cautions, notes and of the foot."""

_ASIDE = 0.98
"""Some of what stands beside a score is bold, most isn't."""

AsideWords = Callable[[LaneLine, int], str]
"""What stands beside a lane's score, in a report of so many columns."""


class ClassLayout(Struct, frozen=True):
    columns: int
    size: float
    """Points of a name and of a score."""
    name: float
    score: float
    """Em of `size` that each takes."""
    aside: float
    """Points of what stands beside a score."""

    @property
    def piece(self) -> float:
        """Points of a piece's name: a heading, smaller than any name under it."""
        return min(12.0, self.size * 0.9)

    @property
    def title(self) -> float:
        return min(14.0, self.size * 0.95)


def class_layout(report: ClassReport, aside: AsideWords) -> ClassLayout:
    """The largest letters with which all of it stands on the fewest pages."""
    most = len(report.pieces) + 1
    sizes = [_LARGEST - _STEP * step for step in range(int((_LARGEST - _LEAST) / _STEP) + 1)]
    for pages in range(1, most + 1):
        for size in sizes:
            for columns in (1, 2):
                for share in _SHARES:
                    layout = _with_columns(report, columns, size, share)
                    if layout and _pages(report, layout, aside) <= pages:
                        return _with_larger_words(report, layout, aside, pages)
    return ClassLayout(1, _LEAST, _UNBROKEN, 8.0, _LEAST_ASIDE)


def _with_larger_words(
    report: ClassReport, layout: ClassLayout, aside: AsideWords, pages: int
) -> ClassLayout:
    """The same, what stands beside the scores as large as that leaves it."""
    larger = (replace(layout, aside=layout.size * part) for part in _ASIDES)
    fitting = (one for one in larger if _pages(report, one, aside) <= pages)
    return max((layout, *fitting), key=lambda one: one.aside)


def parts_of(name: str) -> tuple[str, ...]:
    """A lane's name as it may be broken into lines: after the + of a team."""
    first, *others = reversed(name.split(" + "))
    return tuple(reversed([first, *(f"{other} +" for other in others)]))


def _column(columns: int) -> float:
    """Millimetres of each."""
    return (_WIDE - GAP * (columns - 1)) / columns


def _with_columns(
    report: ClassReport, columns: int, size: float, share: float
) -> ClassLayout | None:
    """None where names or scores would be broken."""
    lanes = [lane for piece in report.pieces for lane in piece.lanes]
    wide = _column(columns) / (size * POINT)
    score = max((ems(lane.score) for lane in lanes), default=0.0) + 0.8
    most = wide * (1 - share) - RANK - score
    whole = max((ems(lane.name) for lane in lanes), default=0.0) + 0.6
    part = max((ems(part) for lane in lanes for part in parts_of(lane.name)), default=0.0) + 0.6
    if most < min(part, _UNBROKEN):
        return None
    return ClassLayout(columns, size, min(whole, most), score, _LEAST_ASIDE)


def _pages(report: ClassReport, layout: ClassLayout, aside: AsideWords) -> int:
    """How many it takes, each piece on one page as long as a page holds it."""
    blocks = [_piece(piece, layout, aside) for piece in report.pieces]
    if report.notes:
        blocks.append(layout.piece * POINT * 1.4 + 4 + sum(map(_small, report.notes)))
    blocks.append(4 + sum(map(_small, (*AFTER_A_CLASS, ""))))
    pages, used = 1, _head(report, layout)
    for block in blocks:
        if used + block > _HIGH:
            pages, used = pages + 1, 0.0
        pages += int(block // _HIGH)
        used += block % _HIGH
    return pages


def _head(report: ClassReport, layout: ClassLayout) -> float:
    wide = _WIDE / (layout.title * POINT)
    title = lines_of((*report.title.split(), *report.when.split()), wide)
    return (title + 1) * layout.title * POINT * 1.25 + 3


def _small(text: str) -> float:
    return (
        lines_of(tuple(text.split()), (_WIDE - 4) / (SMALL * POINT * REGULAR))
        * SMALL
        * POINT
        * 1.25
        + 0.8
    )


def _piece(piece: PieceReport, layout: ClassLayout, aside: AsideWords) -> float:
    rows = [_lane(lane, layout, aside) for lane in piece.lanes]
    down = -(-len(rows) // layout.columns)
    lanes = max((sum(rows[at : at + down]) for at in range(0, len(rows), down or 1)), default=0.0)
    heading = lines_of((*piece.name.split(), *piece.words.split()), _WIDE / (layout.piece * POINT))
    return 4 + heading * layout.piece * POINT * 1.3 + lanes + sum(map(_small, piece.caution))


def _lane(lane: LaneLine, layout: ClassLayout, aside: AsideWords) -> float:
    size = layout.size * POINT
    name = lines_of(parts_of(lane.name), layout.name - 0.5) * size * 1.15
    small = layout.aside * POINT
    wide = _column(layout.columns) - (RANK + layout.name + layout.score) * size
    words = aside(lane, layout.columns)
    beside = (
        lines_of(tuple(words.split()), max(wide, 1.0) / small / _ASIDE) * small * 1.16
        if words
        else 0.0
    )
    ribbon = size * 0.5 if lane.ribbon else 0.0
    return max(name, ribbon + beside) + size * 0.16 + 0.3
