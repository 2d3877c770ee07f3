"""What a lane shows in a lift: beside its name what it lifts now, with which plates."""

from collections.abc import Iterator, Sequence

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


def lift_grids(lanes: Sequence[LaneContent], most: int) -> LaneGrids:
    """The ways in which they stand; letters are at most `most` rows high.

    Whoever made a load looks for a trace of it; it may go where names would be small for it.
    """
    *loose, _ = _grids(lanes, most, "coach")
    *spare, close = _grids(lanes, most, "detail")
    return LaneGrids((), (OneOf(tuple(loose)), OneOf(tuple(spare))), (close,))


def _grids(lanes: Sequence[LaneContent], most: int, made_for: Role) -> Iterator[Grid]:
    """Plates beside the load, or under it; what was made, the heaviest load, after them.

    In the last, which is closest, it is under the plates. All lanes have room for the longest, so
    that their parts stand alike.
    """
    numbers = range(len(lanes))

    def column(what: str, words: Sequence[str], matters: int) -> _Column:
        room = room_for(words)
        return tuple(Written((what, n), room, what, matters=matters, most=most) for n in numbers)

    keys, low_keys = (
        tuple(
            Written(("key", n), lane.key.upper(), "key", matters=matters, most=most)
            for n, lane in enumerate(lanes)
        )
        for matters in (90, CLOSE_KEY)
    )
    names = tuple(
        Written(("name", n), lane.name, "name", matters=70, most=most)
        for n, lane in enumerate(lanes)
    )
    under = column("name", [lane.name for lane in lanes], 70)
    plates = column("plates", [lane.room.plates for lane in lanes], 60)
    tally = room_for([lane.room.tallies[-1] for lane in lanes])
    made = tuple(_made(n, tally, made_for, most) for n in numbers)
    load = room_for([lane.room.load for lane in lanes])
    unit = room_for([lane.room.unit for lane in lanes])
    loads = tuple(_load(n, load, unit, most) for n in numbers)
    attempts = tuple(
        Drawn(("ribbon", n), "ribbon", _ATTEMPTS, _MOST_ATTEMPTS, matters=30) for n in numbers
    )
    said = _TURNS if any(lane.room.turns for lane in lanes) else _SAID
    notes = tuple(Drawn(("notes", n), "notes", _NOTES, _MOST_NOTES, matters=said) for n in numbers)
    # Plates and what was made are numbers both: well apart where there is room.
    lifted = tuple(apart(one, n, _BEFORE_MADE) for n, one in enumerate(made))
    below = tuple(apart(one, n, 0) for n, one in enumerate(made))
    for heaviest in (lifted, below):
        yield _grid((keys, names, loads, plates, heaviest, attempts, notes), ())
    yield _grid((keys, names, loads), (plates, below, attempts, notes))
    yield _grid((keys, loads), (under, plates, below, notes))
    next_to = tuple(apart(load, n) for n, load in enumerate(loads))
    weights = tuple(Stack(parts) for parts in zip(plates, made, strict=True))
    yield _grid((low_keys, names, next_to, weights), (attempts, notes), gap=1)


def _made(n: int, room: str, role: Role, most: int) -> Arrangement:
    """The heaviest load that was made, and its word: three numbers stand in a lane.

    The word has no room where the number has none.
    """
    amount = Written(("tally", n), room, "tally", role, 35, across="right", most=most)
    word = Written(("made", n), MADE.ljust(len(room)), "made", "detail", 31)
    return Beside((amount, word), gap=1)


def _load(n: int, load: str, unit: str, most: int) -> Arrangement:
    amount = Written(("load", n), load, "load", matters=85, across="right", most=most)
    return Beside((amount, Written(("unit", n), unit, "unit", "detail", 25)), gap=1)


def _grid(columns: Sequence[_Column], under: Sequence[_Column], gap: int = 2) -> Grid:
    rows = tuple(zip(*columns, strict=True))
    lines = tuple(Beside(parts) for parts in zip(*under, strict=True))
    across = tuple(n for n in _ACROSS if n <= len(rows))
    return Grid(rows, lines, across=across, gap=gap, between=2, name="lane")
