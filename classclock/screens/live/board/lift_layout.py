"""What the board of a lift shows, and the ways in which it may stand."""

from collections.abc import Iterator

from msgspec import Struct

from classclock.screens.canvas.bar_side import side_columns
from classclock.screens.canvas.cell_measure import CellMeasure, room_for
from classclock.screens.canvas.layout.arrange import Arranged, arrange
from classclock.screens.canvas.layout.parts import (
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Name,
    OneOf,
    Role,
    Stack,
    Written,
)
from classclock.tally.signs import SIGNS, signed
from classclock.wall.board_content import BoardContent
from classclock.wall.lift_content import LiftBoard, LiftLane

_MOST_PAGES = 4
"""With more of them nobody waits for the own one: half a minute at eight seconds each."""
_ACROSS, _DOWN = 3, 3
"""Columns of lanes at most, and lanes that stand in a column of their own at least."""
_TWO_SIDES = 90
"""Columns from which the set may stand beside the lanes."""
_BEFORE_PLATES = 2
"""Columns more between a load and its plates: both are numbers."""
_CAUTION = 5
"""Rows of a caution's letters at most: larger ones are for who lifts what."""
_UNKNOWN = SIGNS["not given"].sign
"""In place of a load that is chosen together."""
_TALL = 99
"""More rows than a lane ever has."""
_PICTURE = 3, 9
"""Rows of a picture of plates at least and at most."""

_NEEDED = frozenset(("key", "name", "load", "plates", "turn"))
"""Groups without which one page isn't enough."""


class _Giving(Struct, frozen=True):
    """What gives way so that names and loads stand large, on few pages."""

    plates: bool = False
    """They are read at the bar, no longer from the back."""
    cautions: bool = False
    """They stand in one row, whole."""


_WAYS = _Giving(), _Giving(plates=True), _Giving(plates=True, cautions=True)


def lift_layout(
    content: BoardContent, lift: LiftBoard, columns: int, rows: int, measure: CellMeasure
) -> Arranged:
    """Everybody's load and plates, and what the set is: in letters, if need be on a few pages.

    Where that is no use all stand on one page, or where it doesn't hold them on a few again.
    """

    def arranged(giving: _Giving, most_pages: int) -> Arranged:
        board = _board(content, lift, giving, columns, measure)
        return arrange(board, columns, rows, measure, most_pages=most_pages)

    for giving in _WAYS:
        found = arranged(giving, _MOST_PAGES)
        if found.whole and found.sizes["name"] > 1:
            return found
    on_one = arranged(_WAYS[-1], 1)
    return on_one if on_one.whole and _NEEDED.isdisjoint(on_one.left_out) else found


def page_words(first: int, last: int, people: int) -> str:
    """Who is on a page, counted from 1."""
    return f"people {first} to {last} of {people}"


def _board(
    content: BoardContent, lift: LiftBoard, giving: _Giving, columns: int, measure: CellMeasure
) -> Arrangement:
    head = tuple(_head(content, lift, _cautions(content, giving)))
    gap = 2 if columns >= _TWO_SIDES else 1
    grids = tuple(_grids(lift, giving, gap, measure))
    under = tuple(Stack((*head, grid), air=1) for grid in grids)
    if columns < _TWO_SIDES:
        return OneOf(under)
    return OneOf((*under, *(Beside((grid, Stack(head, air=1)), gap=3) for grid in grids)))


def _head(
    content: BoardContent, lift: LiftBoard, cautions: tuple[Written, ...]
) -> Iterator[Arrangement]:
    """The set, what to look out for, and what the plan says beside it."""
    short = signed("not all at once", lift.short) if lift.short else ""
    yield Written("set", lift.work, "set", matters=8, breaks=True)
    yield Written("name", content.name, "title", matters=6, breaks=True)
    yield Beside(
        (
            Written("title", lift.title, "which", "coach", 7, breaks=True),
            Written("page", page_words(*[len(lift.lanes)] * 3), "page", "coach", 1, most=1),
        )
    )
    yield from cautions
    yield Written("short", short, "short", "coach", 8, breaks=True)
    for number, words in enumerate(content.lines):
        yield Written(("line", number), words, "line", "coach", 4, breaks=True)
    yield Written("words", content.words, "words", "detail", 3, breaks=True)
    for number, words in enumerate(content.notes):
        yield Written(("note", number), words, "note", "detail", 2, breaks=True)


def _cautions(content: BoardContent, giving: _Giving) -> tuple[Written, ...]:
    """A line each, once it has stood on a board when to stop a small one; or all in small lines."""
    stop = (f" ! {content.stop}",) if content.stop else ()
    rest = tuple(f" ! {words}" for words in content.cautions)
    if giving.cautions:
        return (_caution("stop", "".join((*stop, *rest)), "caution", 1),)
    first = 1 if content.stop_stood else _CAUTION
    return (
        *(_caution("stop", words, "stop", first) for words in stop),
        *(_caution(("caution", at), words, "caution", _CAUTION) for at, words in enumerate(rest)),
    )


def _caution(name: Name, words: str, group: str, most: int) -> Written:
    return Written(name, words, group, "caution", 9, breaks=True, most=most)


def _grids(lift: LiftBoard, giving: _Giving, gap: int, measure: CellMeasure) -> Iterator[Grid]:
    """All lanes with their plates beside the load, or under it."""
    lanes = tuple(enumerate(lift.lanes))
    loads = [load_words(lane) for lane in lift.lanes]
    if all(measure.sizes(load, _TALL) for load in loads):
        # A plus is as wide as a flag's sign, and numerals with it are as wide as numerals are.
        loads = [load.replace(SIGNS["load"].sign, "+") for load in loads]
    room = room_for(loads)
    who = [tuple(_who(number, lane, room)) for number, lane in lanes]
    plates = [_plates(number, lane, giving) for number, lane in lanes]
    notes = [Stack(tuple(_notes(number, lane)), down="middle") for number, lane in lanes]
    pictures = [_picture(number, lane, measure) for number, lane in lanes]
    free = _BEFORE_PLATES if gap > 1 else 0
    apart = [Beside((_free(n, free), one), gap=0) for n, one in enumerate(plates)]
    in_a_row = tuple(zip(who, apart, pictures, notes, strict=True))
    rows = tuple((*first, *others) for first, *others in in_a_row)
    below = zip(plates, notes, strict=True)
    under = tuple(Beside((_free(n, 0), *both)) for n, both in enumerate(below))
    for across in range(1, min(_ACROSS, -(-len(lanes) // _DOWN)) + 1):
        yield Grid(rows, across=(across,), gap=gap, between=2 * gap, paged=True)
        yield Grid(tuple(who), under, across=(across,), gap=gap, between=2 * gap, paged=True)


def _free(number: int, columns: int) -> Drawn:
    size = columns, min(columns, 1)
    return Drawn(("free", number), "free", size, size, "room")


def load_words(lane: LiftLane) -> str:
    """What it lifts, behind a sign if there is a flag on it."""
    sign = SIGNS["load"].sign if lane.flagged else ""
    return f"{sign}{lane.amount or _UNKNOWN}"


def _who(number: int, lane: LiftLane, room: str) -> Iterator[Arrangement]:
    """All loads have room for the widest, so that they stand under each other."""
    yield Written(("key", number), lane.key, "key", matters=7)
    tied = lane.change.place != ""
    yield Drawn(("tie", number), "tie", (1, 1), (1, _TALL), "coach", 6) if tied else Stack(())
    yield Written(("name", number), lane.name, "name", matters=7)
    yield Beside(
        (
            Written(("load", number), room, "load", matters=9, across="right"),
            Written(("unit", number), lane.unit, "unit", "detail", 6),
        ),
        gap=1,
    )


def _plates(number: int, lane: LiftLane, giving: _Giving) -> Arrangement:
    if lane.words:
        return Written(("instead", number), lane.words, "instead", "coach", 6, breaks=True)
    role: Role = "coach" if giving.plates else "room"
    return Written(("plates", number), lane.plate_words, "plates", role, 5)


def _picture(number: int, lane: LiftLane, measure: CellMeasure) -> Arrangement:
    if not lane.bar:
        return Stack(())
    least, most = _PICTURE
    labels = (lane.bar, *(plate.label for plate in lane.plates))
    wide = side_columns([measure.columns(label, least) for label in labels])
    return Drawn(("picture", number), "picture", (wide, least), (wide, most), matters=1)


def _notes(number: int, lane: LiftLane) -> Iterator[Written]:
    """On which bar, whose turn comes then, and the sets to come."""
    turn = ", ".join(filter(None, ("waits for plates" if lane.waits else "", lane.change.words)))
    yield Written(("bar", number), lane.which, "bar", "coach", 5)
    yield Written(("turn", number), turn, "turn", "coach", 6)
    yield Written(("later", number), lane.later, "later", "detail", 5)
