"""Where head, lanes and sections of the coach's screen stand: found once for a phase.

Lines that the coach reads at the laptop come first: of the ways below the first is taken in which
all of them stand. Then clock, names and scores are as large as that leaves room for. Where an
entry comes or a doubt, nothing moves.
"""

from collections.abc import Iterator
from functools import lru_cache

from msgspec import Struct
from rich.cells import set_cell_size

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots
from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Lead,
    OneOf,
    Stack,
    Written,
)
from classclock.screens.canvas.least_size import LEAST_COLUMNS, LEAST_ROWS
from classclock.screens.live.coach.coach_head import coach_head
from classclock.screens.live.wall.heading import usual
from classclock.wall.coach.coach_values import CoachContent, SectionName
from classclock.wall.wall_content import WallContent

_LARGEST = 1.5
"""How many times as large as any other text the clock is at least."""
_MARGIN = 1
_LETTER_SHARE, _LETTERS = 12, 3
"""Names are this part of the rows at most, or drawn in the smallest letters."""
_CLOCK_SHARE, _CLOCK_ROWS = 6, 5
"""The same of the clock."""
_ROOMY = 30
"""Rows from which one is free between two parts of the screen."""
_ACROSS = (1, 2, 3, 4)
_MOST_ABOUT, _ABOUT_ROWS = 90, 4
_WIDE, _MOST_SECTION, _SECTION_ROWS = 30, 64, 12
"""Columns of a section at least and at most; rows that it takes where there are any."""
_WEIGHT: dict[SectionName, int] = {"asked": 60, "entries": 50, "plan": 40, "notes": 20}

NOWHERE = Spot(Box(0, 0, 0, 0))
"""Of what not even the least stands."""


class CoachLaneLayout(Struct, frozen=True):
    """One lane's parts, from its own upper left corner; None is what there is no room for."""

    width: int
    rows: int
    key: Spot
    name: Spot
    signs: Spot
    score: Spot | None
    about: Spot | None


class CoachLayout(Struct, frozen=True):
    """The screen in a box of so many columns and rows."""

    clock: Spot | None
    head: Box
    sections: dict[SectionName, Box]
    lane: CoachLaneLayout | None = None
    corners: tuple[tuple[int, int], ...] = ()
    """Each lane's upper left corner."""


class _Shape(Struct, frozen=True):
    """What of the content decides where all of it stands."""

    head: WallContent
    clears: bool
    lanes: tuple[tuple[str, str, tuple[str, str]], ...]
    """Key, name and the room for the scores."""
    sections: tuple[SectionName, ...]


class _Way(Struct, frozen=True):
    """How much of it stands at least."""

    rows: dict[SectionName, int]
    """Of each section, its heading among them."""
    about: int
    """Columns for what is said of a lane; 0: its signs say it."""
    name: int
    """Cells of the longest name."""
    signs: int = 3
    score: int = 0
    """The whole score, or the short one (1)."""


_WAYS = (
    _Way({"asked": 5, "entries": 6, "plan": 5, "notes": 4}, 32, 40),
    _Way({"asked": 4, "entries": 4, "plan": 3, "notes": 3}, 24, 24),
    _Way({"asked": 3, "entries": 3, "plan": 3, "notes": 2}, 18, 16),
    _Way({"asked": 2, "entries": 2, "plan": 2, "notes": 1}, 12, 12),
    _Way({"asked": 2, "entries": 2, "plan": 1, "notes": 1}, 0, 12),
    _Way({"asked": 2, "entries": 2, "plan": 1, "notes": 0}, 0, 8, 2, 1),
    _Way({"asked": 1, "entries": 1, "plan": 0, "notes": 0}, 0, 8, 1, 1),
)
"""The richest first."""


def lay_out_coach(
    content: CoachContent, columns: int, rows: int, measure: CellMeasure
) -> CoachLayout:
    """In a smaller window stands what it lacks."""
    head = content.head
    shape = _Shape(
        usual(head) if head.clock else head,
        content.clears,
        tuple((lane.key, lane.name, lane.rooms) for lane in content.lanes),
        tuple(section.name for section in content.sections),
    )
    return _laid_out(shape, max(columns, LEAST_COLUMNS), max(rows, LEAST_ROWS - 1), measure)


@lru_cache(maxsize=8)
def _laid_out(shape: _Shape, columns: int, rows: int, measure: CellMeasure) -> CoachLayout:
    inner = columns - 2 * _MARGIN
    spots = _richest(shape, inner, rows, measure).spots
    moved = {name: _moved(spot, _MARGIN, 0) for name, spot in spots.items()}
    sections = {
        name: moved["section", name].box for name in shape.sections if ("section", name) in moved
    }
    return CoachLayout(
        clock=moved.get("clock"),
        head=moved.get("done", NOWHERE).box,
        sections=sections,
        lane=_lane(moved) if ("lane", 0) in moved else None,
        corners=tuple(_corner(moved, n, rows) for n in range(len(shape.lanes))),
    )


def _richest(shape: _Shape, columns: int, rows: int, measure: CellMeasure) -> Arranged:
    """The first way in which nothing that it has is left out."""
    lead = Lead("clock", _LARGEST, ("lane",)) if shape.head.clock else None

    def laid(way: _Way) -> Arranged:
        parts = OneOf(tuple(_parts(shape, way, (columns, rows), measure)))
        return arrange(parts, columns, rows, measure, lead=lead)

    *rich, least = _WAYS
    every = map(laid, rich)
    return next((one for one in every if _all_there(one)), None) or laid(least)


def _all_there(arranged: Arranged) -> bool:
    return arranged.whole and not any(map(_is_ours, arranged.left_out))


def _is_ours(group: str) -> bool:
    return group in ("lane", "signs", "about") or group.startswith("section")


def _parts(
    shape: _Shape, way: _Way, box: tuple[int, int], measure: CellMeasure
) -> Iterator[Arrangement]:
    columns, rows = box
    most = max(_LETTERS, rows // _LETTER_SHARE)
    wide = min(_MOST_SECTION, max(_WIDE, columns // 3))
    shown = [name for name in shape.sections if way.rows[name]]
    sections = tuple(_section(name, way.rows[name], wide) for name in shown)
    low = tuple(_section(name, way.rows[name], _WIDE - 2) for name in shown)
    halves = Beside((Stack(low[::2]), Stack(low[1::2])), gap=2)
    top, gap = _top(shape, rows), 1 if rows >= _ROOMY else 0
    for lanes in _lanes(shape, way, most, measure):
        yield Beside((Stack((top, lanes), gap), Stack(sections, gap)), gap=3)
        yield Stack((top, Beside((lanes, Stack(sections, gap)), gap=3)), gap)
        yield Stack((top, lanes, halves), gap)
        yield Stack((top, lanes, *low), gap)


def _top(shape: _Shape, rows: int) -> Arrangement:
    head = Area("done", coach_head(shape.head, clears=shape.clears))
    if not shape.head.clock:
        return head
    most = max(_CLOCK_ROWS, rows // _CLOCK_SHARE)
    clock = Written("clock", shape.head.clock, "clock", matters=100, least=_LETTERS, most=most)
    return Beside((clock, head), gap=2)


def _lanes(shape: _Shape, way: _Way, most: int, measure: CellMeasure) -> Iterator[Arrangement]:
    """Everybody; what is said of them beside their score, or under it."""
    if not shape.lanes:
        yield Stack(())
        return
    keys = (key for key, *_ in shape.lanes)  # all lanes' parts stand alike
    key = max(keys, key=lambda one: measure.columns(one, _LETTERS))
    lanes = [(key, _cut(name, way.name), rooms[way.score]) for _, name, rooms in shape.lanes]
    across = tuple(n for n in _ACROSS if n <= len(lanes))
    rows = tuple(_cells(n, lane, way.signs, most) for n, lane in enumerate(lanes))
    if not way.about:
        yield Grid(rows, across=across, gap=1, between=2, name="lane")
        return
    least, wished = (way.about, 1), (_MOST_ABOUT, _ABOUT_ROWS)
    abouts = [Drawn(("about", n), "about", least, wished, "coach", 30) for n in range(len(rows))]
    beside = tuple((*row, about) for row, about in zip(rows, abouts, strict=True))
    yield Grid(beside, across=across, gap=1, between=2, name="lane")
    yield Grid(rows, tuple(abouts), across=across, gap=1, between=2, name="lane")


def _cut(name: str, most: int) -> str:
    return name if len(name) <= most else set_cell_size(name, most)


def _cells(n: int, lane: tuple[str, str, str], signs: int, most: int) -> tuple[Arrangement, ...]:
    """Key, name and the room for the score; around a key there is room for its cap."""
    key, name, room = lane
    before, after = (Drawn((side, n), side, (1, 1), (1, 1), "room") for side in ("before", "after"))
    cells: list[Arrangement] = [
        Beside((before, Written(("key", n), key, "lane", matters=90, most=most), after), gap=0),
        Written(("name", n), name, "lane", matters=90, most=most),
    ]
    if room:
        apart = Drawn(("apart", n), "apart", (1, 1), (1, 1), "room")
        score = Written(("score", n), room, "lane", matters=90, across="right", most=most)
        cells.append(Beside((apart, score), gap=0))
    cells.append(Drawn(("signs", n), "signs", (signs, 1), (signs, 1), "coach", 70))
    return tuple(cells)


def _section(name: SectionName, least: int, wide: int) -> Drawn:
    size, wished = (wide, least), (_MOST_SECTION, _SECTION_ROWS)
    return Drawn(("section", name), f"section {name}", size, wished, "coach", _WEIGHT[name])


def _lane(spots: Spots) -> CoachLaneLayout:
    """The parts of the first lane: those of the others stand alike."""
    box = spots["lane", 0].box

    def part(name: str) -> Spot | None:
        found = spots.get((name, 0))
        return found and _moved(found, -box.x, -box.y)

    return CoachLaneLayout(
        width=box.width,
        rows=box.height,
        key=part("key") or NOWHERE,
        name=part("name") or NOWHERE,
        signs=part("signs") or NOWHERE,
        score=part("score"),
        about=part("about"),
    )


def _corner(spots: Spots, lane: int, rows: int) -> tuple[int, int]:
    """A lane that was cut off is under the last row."""
    spot = spots.get(("lane", lane))
    return (spot.box.x, spot.box.y) if spot is not None else (0, rows)


def _moved(spot: Spot, right: int, down: int) -> Spot:
    box = spot.box
    return spot._replace(box=box._replace(x=box.x + right, y=box.y + down))
