"""The one rule by which every screen is laid out.

A screen says what it shows: texts and drawn things with a role, and in which ways they may stand.
`arrange` answers where each stands and how large it is:

1. Whatever is read from the back (`room`, `caution`) or at the laptop (`coach`) stands there. Only
   where not even all of it stands in its least size something goes: what matters least, first of
   the coach's, then of the room's; cautions never.
2. The sizes of the groups read from the back are leximin: the smallest is as large as any of the
   ways and sizes let it be, then the next smallest, and so on. Of equals it is the one with the
   larger cautions, then with the larger of what matters more.
3. A group that leads (the clock) is the largest, and so many times as large as some; it is none of
   those in 2.
4. Details come back one by one, what matters most first, where they cost nobody of the room a
   size. Then what leads grows, then they and what is the coach's, as far as the smallest of the
   room's.
5. Where some text of the room is in its least size, what is `paged` is parted over the fewest
   pages on which none is; over none where no number of pages helps.
6. What is left goes to what is drawn, as far as it wishes, to tables' rows, and to the air between.

For example:

    lanes = Grid(
        rows=tuple(
            (
                Written(("key", n), lane.key, "key"),
                Written(("name", n), lane.name, "name"),
                Written(("score", n), "12+12", "score", across="right"),  # room for what may come
                Drawn(("ribbon", n), "ribbon", least=(20, 1), wished=(120, 9)),
            )
            for n, lane in enumerate(lanes)
        ),
        across=(1, 2, 3),
    )
    screen = Stack(
        (
            Beside((Written("clock", "00:00", "clock"), Written("work", "12 row", "work"))),
            Written("hint", "enter goes on", "hint", role="coach"),
            lanes,
        ),
        air=1,
    )
    lead = Lead("clock", 1.5, over=("key", "name", "score"))
    laid = arrange(screen, 120, 35, CellMeasure(look.terminal), lead=lead)
    laid.spots["name", 3]  # Spot(box=Box(x=…, y=…, width=…, height=…), size=3, lines=("Ilse",))

`draw_arranged` in `canvas/arranged_drawing.py` makes cells of it. What is laid out is kept: the
same parts in the same box are looked up. So give texts the widest words that they may come to have,
and draw in their spots what they have: then a changed digit lays out nothing.
"""

from collections.abc import Sequence
from functools import lru_cache

from msgspec import Struct

from classclock.screens.canvas.layout.compiling import Compiler, leaves, most_rows
from classclock.screens.canvas.layout.grouping import (
    Limits,
    groups_of,
    leading,
    limited,
    names_of,
)
from classclock.screens.canvas.layout.measure import Measure
from classclock.screens.canvas.layout.narrowing import NarrowedWays
from classclock.screens.canvas.layout.nodes import NEVER, Box, Sizes, Spots, fewest
from classclock.screens.canvas.layout.pages import Pages
from classclock.screens.canvas.layout.parts import MOST, Arrangement, Lead
from classclock.screens.canvas.layout.search import SizeGroup, SizeSearch


class Arranged(Struct, frozen=True):
    """What is found out at once; the spots only when they are looked at."""

    pages: Pages
    sizes: dict[str, int]
    """Of each group that has words or is drawn; 0 where it is left out."""
    whole: bool
    """Whether all stands in the box: else even the least of it was too much, and is cut."""

    @property
    def spots(self) -> Spots:
        """Of the first page."""
        return self.pages[0]

    @property
    def left_out(self) -> tuple[str, ...]:
        return tuple(group for group, size in self.sizes.items() if not size)


@lru_cache(maxsize=16)  # what is on a few screens: one of 26 lanes takes 200 kB, 500 not yet placed
def arrange(
    part: Arrangement,
    columns: int,
    rows: int,
    measure: Measure,
    *,
    lead: Lead | None = None,
    most_pages: int = MOST,
) -> Arranged:
    """Each part's spot in a box of this size, on no more than so many pages.

    Raises ValueError where two leaves of one group disagree about their role, or where a cell of a
    table could stand in several ways.
    """
    return Trials((part,), columns, rows, measure, lead=lead).arranged(part, most_pages=most_pages)


class Trials:
    """Arrangements of much the same parts in one box: what they share is measured once.

    A screen that would rather show more asks here what it may show, before it lays it out.
    """

    def __init__(
        self,
        parts: Sequence[Arrangement],
        columns: int,
        rows: int,
        measure: Measure,
        *,
        lead: Lead | None = None,
    ) -> None:
        self._box, self._measure, self._lead = Box(0, 0, columns, rows), measure, lead
        self._parts = tuple(parts)  # alive: what is kept goes by identity
        self._leaves = {id(part): leaves(part) for part in parts}
        self.groups = names_of(self._leaves.values())
        self._compiler = Compiler(self.groups, measure)
        self._groups: dict[int, tuple[SizeGroup, ...]] = {}
        self._ways: dict[tuple[int, int], NarrowedWays] = {}
        self._searches: dict[tuple[int, int, Limits], SizeSearch] = {}

    def smallest(self, part: Arrangement, limits: Limits = ()) -> int:
        """The size of the smallest text of the room; 0 where not all of it stands."""
        return self._search(part, limits=limits).least_size()

    def alone(self, part: Arrangement, group: str, limits: Limits = ()) -> int:
        """The size of a group if it alone mattered: all else that must be is least."""
        search, at = self._search(part, limits=limits), self.groups.index(group)
        return search.leximin(search.least(), frozenset((at,))).sizes[at]

    def arranged(
        self, part: Arrangement, limits: Limits = (), *, most_pages: int = MOST
    ) -> Arranged:
        """`limits` aren't for what leads."""
        pages = self._fewest_pages(part, limits, most_pages)
        search = self._search(part, pages, limits)
        found = search.largest()
        whole = search.standing(found.sizes) is not None
        sizes = zip(search.groups, found.sizes, strict=True)
        return Arranged(
            Pages(found, self._box, pages),
            {group.name: size for group, size in sizes if group.sizes},
            whole,
        )

    def _search(self, part: Arrangement, pages: int = 1, limits: Limits = ()) -> SizeSearch:
        at = id(part), pages, limits
        if at not in self._searches:
            groups = limited(self._groups_of(part), limits)
            self._searches[at] = SizeSearch(groups, self._ways_of(part, pages))
        return self._searches[at]

    def _ways_of(self, part: Arrangement, pages: int) -> NarrowedWays:
        """One for all limits: what stands depends on the sizes alone."""
        at = id(part), pages
        if at not in self._ways:
            nodes = self._compiler.ways(part, pages)
            lead = leading(self._lead, self._groups_of(part))
            self._ways[at] = NarrowedWays(nodes, *self._box[2:], lead)
        return self._ways[at]

    def _groups_of(self, part: Arrangement) -> tuple[SizeGroup, ...]:
        if id(part) not in self._groups:
            every = self._leaves[id(part)]
            groups = groups_of(every, self.groups, self._box.height, self._measure)
            self._groups[id(part)] = groups
        return self._groups[id(part)]

    def _fewest_pages(self, part: Arrangement, limits: Limits, most: int) -> int:
        """The fewest on which no text of the room is in its least size; else on which all stand."""
        most, on_one = min(most, most_rows(part)), self._search(part, limits=limits)
        for wanted in (on_one.second, on_one.first):
            if on_one.standing(wanted) is not None:
                return 1

            def enough(pages: int, wanted: Sizes = wanted) -> bool:
                return self._search(part, pages, limits).standing(wanted) is not None

            if (pages := fewest(2, most, enough)) != NEVER:
                return pages
        return 1
