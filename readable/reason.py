"""Why a text is in one row: what would be in one row in its place, though it comes first.

Found with the plain arrangements of `bound.py`, so apart from any screen's own layout.
"""

from collections import Counter
from collections.abc import Collection, Iterable, Iterator, Sequence
from itertools import combinations
from math import ceil

from classclock.screens.canvas.letters.dot_type import ROWS as DRAWN
from readable.bound import LANE, stand
from readable.finding import Piece, pieces, standing
from readable.made_class import Seen
from readable.room_texts import Role, first
from readable.script import State

_KEYED: frozenset[Role] = frozenset(("name", "tally", "load"))
"""A key alone says nothing: it is of use beside one of these."""
_AMID: frozenset[State] = frozenset(("held", "time", "all in"))
"""A word has come, and neither clock nor lanes move for it."""
_UNDER_THE_CLOCK = 1
"""Rows that are free there."""
NO_ROOM = "no room, were all else in one row"
NOT_ALL = "not all has room, and this comes last"
LANES_MOVE = "else clock or lanes would move"


def why_small(seen: Seen, role: Role, small: Collection[Role]) -> str | None:
    """What speaks against drawn letters for it, in words; None where nothing does.

    `small` is all that is in one row there. Nothing speaks for one row where what comes after it
    would be in one row in its place, or nothing at all.
    """
    order, timed = first(seen.state), any(one.role == "clock" for one in seen.wanted)
    roles = [one.role for one in seen.wanted if one.texts and one.role != "coach"]

    def cost(those: Collection[Role]) -> tuple[bool, int, list[int]]:
        """Whether what is to be done next is in one row; how many groups; then what comes first.

        While a clock runs each lane counts: a name is looked for by one, a movement by all.
        """
        found = [one for one in seen.wanted if one.role in _useless(those, roles)]
        number = sum(len(one.texts) if timed and one.role in LANE else 1 for one in found)
        at = sorted(order.index(one.role) for one in found)
        return "next" in those, number, [-one for one in at]

    others = _each(sorted((one for one in roles if one != role), key=order.index))
    ways = [way for way in others if role not in _useless(way, roles) and _stands(seen, way)]
    if not ways:
        return NO_ROOM
    if seen.state in _AMID:
        ways = [way for way in ways if _where_they_are(seen, way)]
        if not ways:
            return LANES_MOVE
    if any(cost(way) < cost(small) for way in ways):
        return None
    instead = min(([one for one in way if one not in small] for way in ways), key=len)
    return f"else {' and '.join(instead)} would be"


def _useless(small: Collection[Role], roles: Collection[Role]) -> set[Role]:
    """What can't be read, with the key where there is nothing beside it that can."""
    beside = _KEYED.intersection(roles)
    return {*small, *(("key",) if "key" in roles and beside.issubset(small) else ())}


def _each(roles: Sequence[Role]) -> Iterator[tuple[Role, ...]]:
    """All that may be in one row, the fewest first."""
    for count in range(len(roles) + 1):
        yield from combinations(roles, count)


def _stands(seen: Seen, small: Collection[Role]) -> bool:
    columns, rows = seen.size.columns, seen.size.rows
    return stand(seen.wanted, small, columns, rows, seen.kind.dots, pages=_pages(seen))


def _pages(seen: Seen) -> int:
    """On how many pages the lanes stand; at the end each piece has all of them again."""
    if len(seen.pages) == 1:
        return 1
    names = next((one.texts for one in seen.wanted if one.role == "name"), ())
    each = Counter(page for found in standing(pieces(seen), names) for page in _numbers(found))
    return ceil(len(names) / max(each.values())) if each else len(seen.pages)


def _numbers(found: Iterable[Piece]) -> set[int]:
    return {piece.page for piece in found}


def _where_they_are(seen: Seen, small: Collection[Role]) -> bool:
    """Whether all but clock and lanes stands beside them, or between, as large as those are now."""
    every = pieces(seen)

    def places(role: Role) -> list[Piece]:
        texts = next((one.texts for one in seen.wanted if one.role == role), ())
        return [places[0] for places in standing(every, texts) if places]

    (clock,), keys = places("clock"), places("key")
    if clock.rows <= DRAWN:
        return False  # it is the largest thing there is
    x, y = min(one.x for one in keys), min(one.y for one in keys)
    right, below = clock.x + clock.columns, clock.y + clock.rows + _UNDER_THE_CLOCK
    others = [one for one in seen.wanted if one.role not in (*LANE, "clock")]
    columns, rows = seen.size.columns, seen.size.rows
    free = (columns - right, y + 1), (columns, y + 1 - below), (x, rows - below)
    return any(stand(others, small, *box, seen.kind.dots, pages=1) for box in free)
