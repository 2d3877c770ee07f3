"""What a lane of the wall shows, as parts that may stand in several ways."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from classclock.screens.canvas.cell_measure import room_for
from classclock.screens.canvas.layout.parts import (
    MOST,
    Arrangement,
    Beside,
    Drawn,
    Grid,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.wall.lane_bars import Share
from classclock.wall.lane_content import LaneContent

CLOSE_KEY = 65
"""How much a key matters where not all is large: less than names, for alone it says nothing."""
_LEAST_RIBBON, _LEAST_NOTES = 20, 12
_MOST_RIBBON, _MOST_NOTES = 160, 26
_MOST_ROWS = 12
_ACROSS = (1, 2, 3, 4)

_RUNGS: tuple[Role, Role] = ("room", "detail")
"""Who reads what a round takes: everybody, or whoever comes close, for the plan says it too."""

_SOME_BAR = Share(1, (), 0, "")

_Column = tuple[Arrangement, ...]


def usual_lane(lane: LaneContent) -> LaneContent:
    """What of a lane stays as it is while a piece runs: where it stands depends on that alone."""
    bar = None if lane.bar is None else _SOME_BAR
    return LaneContent(lane.key, lane.name, "", "", bar=bar, start=lane.start, room=lane.room)


def apart(number: Arrangement, n: int, columns: int = 1) -> Arrangement:
    """With free columns before it, where a tally's sign stands too: no number touches a name."""
    free = columns, min(columns, 1)
    return Beside((Drawn(("sign", n), "sign", free, free, "room"), number), gap=0)


class LaneGrids(Struct, frozen=True):
    """The ways in which all lanes stand, by what they show beside names and tallies."""

    rich: tuple[OneOf, ...]
    """With ribbon, notes and room for a long tally; without that room."""
    plain: tuple[OneOf, ...]
    """With a ribbon, and notes where there is room; with a ribbon too only where there is."""
    close: tuple[Grid, ...]
    """So close together that nothing touches; then with what may go if names are large for it."""


def lane_grids(lanes: Sequence[LaneContent]) -> LaneGrids:
    ribbons: Role | None = "room" if any(lane.bar is not None for lane in lanes) else None
    named, said, spare = _names(lanes), *(tuple(_said(lanes, one)) for one in _RUNGS)
    long, short = ((*named, _tallies(lanes, at)) for at in (0, -1))

    def ways(cells: tuple[_Column, ...], ribbons: Role | None, notes: Role) -> OneOf:
        return OneOf(tuple(_grids(lanes, cells, said, ribbons=ribbons, notes=notes)))

    rich = ways(long, ribbons, "room"), ways(short, ribbons, "room")
    plain = [ways(short, ribbons, "detail")]
    if ribbons:
        plain.append(ways(short, "detail", "detail"))
    *who, tallies = *_names(lanes, key=CLOSE_KEY), short[-1]
    numbers = tuple(apart(tally, n) for n, tally in enumerate(tallies))
    notes = tuple(_notes(n, "detail") for n in range(len(lanes)))
    close = (_grid((*who, numbers, *also), notes, gap=1, between=2) for also in (said, spare))
    return LaneGrids(rich, tuple(plain), tuple(dict.fromkeys(close)))


def _grids(
    lanes: Sequence[LaneContent],
    cells: tuple[_Column, ...],
    said: tuple[_Column, ...],
    *,
    ribbons: Role | None,
    notes: Role,
) -> Iterator[Grid]:
    """Ribbon and notes stand beside the tally or under all, and so does what else is said."""
    numbers = range(len(lanes))
    noted = tuple(_notes(n, notes) for n in numbers)
    wide, thin = (_MOST_RIBBON, _MOST_ROWS), (MOST, 1)
    beside = [tuple(_ribbon(n, wide, ribbons) for n in numbers)] if ribbons else []
    below = tuple(
        Beside((_ribbon(n, thin, ribbons), note)) if ribbons else note
        for n, note in enumerate(noted)
    )
    yield _grid((*cells, *said, *beside, noted), ())
    yield _grid((*cells, *said), below)
    if said:
        lines = tuple(Beside(parts) for parts in zip(*said, strict=True))
        yield _grid(cells, tuple(Stack(parts) for parts in zip(lines, below, strict=True)))


def _grid(columns: Sequence[_Column], under: _Column, gap: int = 3, between: int = 4) -> Grid:
    rows = tuple(zip(*columns, strict=True))
    across = tuple(n for n in _ACROSS if n <= len(rows))
    return Grid(rows, under, across=across, gap=gap, between=between, name="lane")


def _notes(n: int, role: Role) -> Drawn:
    wished = _MOST_NOTES, _MOST_ROWS
    return Drawn(("notes", n), "notes", (_LEAST_NOTES, 1), wished, role, matters=20)


def _ribbon(n: int, wished: tuple[int, int], role: Role) -> Drawn:
    return Drawn(("ribbon", n), "ribbon", (_LEAST_RIBBON, 1), wished, role, matters=30)


def _names(lanes: Sequence[LaneContent], *, key: int = 90) -> tuple[_Column, _Column]:
    return (
        tuple(
            Written(("key", n), lane.key.upper(), "key", matters=key)
            for n, lane in enumerate(lanes)
        ),
        tuple(Written(("name", n), lane.name, "name", matters=70) for n, lane in enumerate(lanes)),
    )


def _tallies(lanes: Sequence[LaneContent], at: int) -> _Column:
    return tuple(
        Written(("tally", n), lane.room.tallies[at], "tally", matters=80)
        for n, lane in enumerate(lanes)
    )


def _said(lanes: Sequence[LaneContent], rung: Role) -> Iterator[_Column]:
    """What only some pieces have: where rounds begin, what the next one takes.

    All lanes have room for the widest, so that their parts stand alike.
    """
    said: tuple[tuple[str, Role, list[str]], ...] = (
        ("start", "room", [lane.start for lane in lanes]),
        ("rung", rung, [lane.room.rung for lane in lanes]),
    )
    for what, role, each in said:
        if words := room_for(each):
            yield tuple(
                Written((what, n), words, what, role, matters=40) for n in range(len(lanes))
            )
