"""Which of its ways the wall stands in: what is shown beside letters that can be read.

What is shown costs letters some of their size, but never makes them small.
"""

from collections.abc import Iterator, Sequence

from classclock.screens.canvas.cell_measure import CellMeasure
from classclock.screens.canvas.layout.arrange import Arranged, Trials
from classclock.screens.canvas.layout.grouping import Limits
from classclock.screens.canvas.layout.parts import Arrangement, Lead
from classclock.screens.canvas.letters.dot_type import ROWS as DRAWN
from classclock.screens.live.wall.lift_grid import lifting
from classclock.screens.live.wall.wall_arrangements import wall_ways
from classclock.wall.lane_content import LaneContent
from classclock.wall.wall_content import WallContent

LARGEST = 1.5
"""How many times as large as any other text the clock is at least."""
_LARGE_SHARE, _LETTER_SHARE = 8, 7
"""From the first part of the rows on other letters are large: words are seen under 21 minutes of
arc from ten metres, on 55 inches. They have the second at most: larger ones would not be read
better, and would push out what else is said."""
_EACH = ("key", "name", "tally", "start", "load", "plates")
"""What every lane has a text of, that it can't do without."""
_ONCE = ("move", "head", "shout")
_LED = (*_EACH, *_ONCE, "rung", "progress", "title", "caution")
"""Over which the clock is the largest."""
_OF_LANES, _READ_ONCE = (*_EACH, "rung"), (*_ONCE, "progress", "left")
"""Whose letters are held back, so that others have room."""


def arranged_wall(
    content: WallContent,
    lanes: tuple[LaneContent, ...],
    columns: int,
    rows: int,
    measure: CellMeasure,
) -> Arranged:
    """A ribbon and a large clock are shown where no text comes to one row for them.

    Notes, and room for a long tally, where all letters are as large as without them, or large.
    Where that is no use no letters are larger than they need be, or all stands close together.
    """
    ways = wall_ways(content, lanes, rows)
    lead = Lead("clock", LARGEST, _LED)
    trials = Trials((*ways.rich, *ways.plain, *ways.close), columns, rows, measure, lead=lead)
    most = max(DRAWN, round(rows / _LETTER_SHARE))
    usual = _limits(most, most) if lanes else ()
    if trials.smallest(ways.plain[-1], usual) > 1:  # the others ask for more
        plain = next(one for one in ways.plain if trials.smallest(one, usual) > 1)
        enough = min(trials.smallest(plain, usual), rows // _LARGE_SHARE)
        rich = ways.rich if plain is ways.plain[0] else ()
        good = (one for one in rich if trials.smallest(one, usual) >= enough)
        return trials.arranged(next(good, plain), usual)
    tried = [trials.arranged(one, usual) for one in ways.plain[-2:]]
    if lanes:
        close = ways.close[0]
        if trials.smallest(close, usual) > 1:
            return trials.arranged(close, usual)
        if most > DRAWN and all(one.sizes["name"] <= 1 for one in tried):
            low = _limits(DRAWN, DRAWN)
            tried += [trials.arranged(one, low) for one in ways.plain[-2:]]
        tried += _with_lanes_large(trials, ways.close, lanes)
        if all(_lanes_small(one, lanes) for one in tried):
            small = _limits(1, DRAWN)
            tried += [trials.arranged(one, small) for one in ways.close]
    return min(tried, key=lambda one: _lacking(one, lanes))


def _limits(of_lanes: int, once: int) -> Limits:
    """Rows of lanes' letters at most, and of those that are read once."""
    return (
        *((group, of_lanes) for group in _OF_LANES),
        *((group, once) for group in _READ_ONCE),
    )


def _with_lanes_large(
    trials: Trials, ways: Sequence[Arrangement], lanes: Sequence[LaneContent]
) -> Iterator[Arranged]:
    """Rather is in one row what is read once than everybody's; large letters are at their least.

    Nothing where no more of the lanes than keys may come out large: a key alone says nothing.
    """
    for once in (DRAWN, 1):
        limits = _limits(DRAWN, once)
        for way in ways:
            if any(trials.alone(way, group, limits) > 1 for group in ("name", _number(lanes))):
                found = trials.arranged(way, limits)
                yield found
                if all(found.sizes.get(group, DRAWN) > 1 for group in _each(lanes)):
                    return


def _each(lanes: Sequence[LaneContent]) -> tuple[str, ...]:
    """In a lift what was made, its tally, may go."""
    return tuple(group for group in _EACH if group != "tally" or not lifting(lanes))


def _number(lanes: Sequence[LaneContent]) -> str:
    """What each looks for beside the own name."""
    return "load" if lifting(lanes) else "tally"


def _lanes_small(arranged: Arranged, lanes: Sequence[LaneContent]) -> bool:
    return all(arranged.sizes[group] <= 1 for group in ("name", _number(lanes)))


def _lacking(arranged: Arranged, lanes: Sequence[LaneContent]) -> tuple[bool, int, int, bool, bool]:
    """Whether it is cut; how many texts of the room aren't there, and are of one row.

    And whether names are among those, and what each round takes isn't there. A key that is large
    alone is as a small one.
    """
    sizes = dict(arranged.sizes)
    if lanes and _lanes_small(arranged, lanes):
        sizes["key"] = 1
    each = _each(lanes)
    texts = [
        size
        for group, size in sizes.items()
        if group in each or group in _ONCE
        for _ in range(len(lanes) if group in each else 1)
    ]
    small, lacks_rungs = sizes.get("name") == 1, sizes.get("rung") == 0
    return not arranged.whole, texts.count(0), texts.count(1), small, lacks_rungs
