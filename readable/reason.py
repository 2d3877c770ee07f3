"""Why a text is in one row: what would be in one row in its place, though it comes first.

Found with the plain arrangements of `bound.py`, so apart from any screen's own layout.
"""

from collections.abc import Collection, Iterator, Sequence
from itertools import combinations

from readable.bound import LANE, stand
from readable.finding import pieces, standing
from readable.made_class import Seen
from readable.room_texts import Role, first

_KEYED: frozenset[Role] = frozenset(("name", "tally", "load"))
"""A key alone says nothing: it is of use beside one of these."""


NO_ROOM = "no room, were all else in one row"
LANES_MOVE = "else lanes would move"


def why_small(seen: Seen, role: Role, small: Collection[Role]) -> str | None:
    """What speaks against drawn letters for it, in words; None where nothing does.

    `small` is all that is in one row there. Nothing speaks for one row where what comes after it
    would be in one row in its place, or nothing at all.
    """
    order, timed = first(seen.state), any(one.role == "clock" for one in seen.wanted)
    roles = [one.role for one in seen.wanted if one.texts and one.role != "coach"]

    def cost(those: Collection[Role]) -> tuple[int, list[int]]:
        """How many groups are in one row or, while a clock runs, texts; then what comes first."""
        found = [one for one in seen.wanted if one.role in _useless(those, roles)]
        number = sum(len(one.texts) for one in found) if timed else len(found)
        return number, [-at for at in sorted(order.index(one.role) for one in found)]

    others = _each(sorted((one for one in roles if one != role), key=order.index))
    ways = [way for way in others if role not in _useless(way, roles) and _stands(seen, way)]
    if not ways:
        return NO_ROOM
    if seen.state == "held" and not any(_beside_the_lanes(seen, way) for way in ways):
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
    return stand(seen.wanted, small, columns, rows, seen.kind.dots, pages=len(seen.pages))


def _beside_the_lanes(seen: Seen, small: Collection[Role]) -> bool:
    """Whether all but the lanes stands over them, or at their left, where they are."""
    keys = next(one.texts for one in seen.wanted if one.role == "key")
    places = [places[0] for places in standing(pieces(seen), keys) if places]
    x, y = min(one.x for one in places), min(one.y for one in places)
    others = [one for one in seen.wanted if one.role not in LANE]
    free = (seen.size.columns, y + 1), (x, seen.size.rows)
    return any(stand(others, small, *box, seen.kind.dots, pages=1) for box in free)
