"""What a lane shows in a lift: beside its name what it lifts now, with which plates."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from classclock.screens.canvas.cell_measure import room_for
from classclock.screens.canvas.layout.parts import (
    Arrangement,
    Beside,
    Drawn,
    Grid,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.screens.live.wall.lane_grid import CLOSE_KEY, LaneGrids, apart
from classclock.wall.lane_content import LaneContent

_ACROSS = (1, 2, 3, 4)
_ATTEMPTS, _MOST_ATTEMPTS = (20, 1), (40, 1)
_BEFORE_MADE = 3
_TURNS, _SAID = 32, 20
"""How much what is said of a lane matters: more than a word where bars are shared by turns."""
MADE = "made"
"""What a lift's tally is: the heaviest that was lifted."""
_NOTES, _MOST_NOTES = (12, 1), (26, 12)

_Column = tuple[Arrangement, ...]


def lifting(lanes: Sequence[LaneContent]) -> bool:
    """Whether loads are planned, or a bar is shared."""
    return any(lane.room.load or lane.room.plates for lane in lanes)


def lift_grids(lanes: Sequence[LaneContent]) -> LaneGrids:
    """The ways in which they stand.

    Whoever made a load looks for a trace of it; it may go where names would be small for it.
    """
    cells = _cells(lanes)
    *loose, _ = _grids(lanes, cells, "coach")
    *spare, close = _grids(lanes, cells, "detail")
    return LaneGrids((), (OneOf(tuple(loose)), OneOf(tuple(spare))), (close,))


class _Cells(Struct, frozen=True):
    """What all the ways are made of, so that it is measured once."""

    keys: _Column
    low_keys: _Column
    names: _Column
    names_alike: _Column
    """Each as wide as the widest."""
    loads: _Column
    plates: _Column
    attempts: _Column
    notes: _Column


def _cells(lanes: Sequence[LaneContent]) -> _Cells:
    """All lanes have room for the longest, so that their parts stand alike."""
    numbers = range(len(lanes))

    def column(what: str, words: Sequence[str], matters: int) -> _Column:
        room = room_for(words)
        return tuple(Written((what, n), room, what, matters=matters) for n in numbers)

    def keys(matters: int) -> _Column:
        return tuple(
            Written(("key", n), lane.key.upper(), "key", matters=matters)
            for n, lane in enumerate(lanes)
        )

    load = room_for([lane.room.load for lane in lanes])
    unit = room_for([lane.room.unit for lane in lanes])
    said = _TURNS if any(lane.room.turns for lane in lanes) else _SAID
    return _Cells(
        keys=keys(90),
        low_keys=keys(CLOSE_KEY),
        names=tuple(
            Written(("name", n), lane.name, "name", matters=70) for n, lane in enumerate(lanes)
        ),
        names_alike=column("name", [lane.name for lane in lanes], 70),
        loads=tuple(_load(n, load, unit) for n in numbers),
        plates=column("plates", [lane.room.plates for lane in lanes], 60),
        attempts=tuple(
            Drawn(("ribbon", n), "ribbon", _ATTEMPTS, _MOST_ATTEMPTS, matters=30) for n in numbers
        ),
        notes=tuple(
            Drawn(("notes", n), "notes", _NOTES, _MOST_NOTES, matters=said) for n in numbers
        ),
    )


def _grids(lanes: Sequence[LaneContent], cells: _Cells, made_for: Role) -> Iterator[Grid]:
    """Plates beside the load, or under it; what was made, the heaviest load, after them.

    In the last, which is closest, it is under the plates.
    """
    keys, names, loads, plates = cells.keys, cells.names, cells.loads, cells.plates
    attempts, notes = cells.attempts, cells.notes
    tally = room_for([lane.room.tallies[-1] for lane in lanes])
    made = tuple(_made(n, tally, made_for) for n in range(len(lanes)))
    # Plates and what was made are numbers both: well apart where there is room.
    lifted = tuple(apart(one, n, _BEFORE_MADE) for n, one in enumerate(made))
    below = tuple(apart(one, n, 0) for n, one in enumerate(made))
    for heaviest in (lifted, below):
        yield _grid((keys, names, loads, plates, heaviest, attempts, notes), ())
    yield _grid((keys, names, loads), (plates, below, attempts, notes))
    yield _grid((keys, loads), (cells.names_alike, plates, below, notes))
    next_to = tuple(apart(load, n) for n, load in enumerate(loads))
    weights = tuple(Stack(parts) for parts in zip(plates, made, strict=True))
    yield _grid((cells.low_keys, names, next_to, weights), (attempts, notes), gap=1)


def _made(n: int, room: str, role: Role) -> Arrangement:
    """The heaviest load that was made, and its word: three numbers stand in a lane.

    The word has no room where the number has none.
    """
    amount = Written(("tally", n), room, "tally", role, 35, across="right")
    word = Written(("made", n), MADE.ljust(len(room)), "made", "detail", 31)
    return Beside((amount, word), gap=1)


def _load(n: int, load: str, unit: str) -> Arrangement:
    amount = Written(("load", n), load, "load", matters=85, across="right")
    return Beside((amount, Written(("unit", n), unit, "unit", "detail", 25)), gap=1)


def _grid(columns: Sequence[_Column], under: Sequence[_Column], gap: int = 2) -> Grid:
    rows = tuple(zip(*columns, strict=True))
    lines = tuple(Beside(parts) for parts in zip(*under, strict=True))
    across = tuple(n for n in _ACROSS if n <= len(rows))
    return Grid(rows, lines, across=across, gap=gap, between=2, name="lane")
