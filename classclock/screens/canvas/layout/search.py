"""The largest sizes that stand in a box: leximin, exactly.

Of the sizes of all groups that are read from the back the smallest is as large as it can be, then
the next smallest, and so on. What stands in some sizes stands in smaller ones too, so all are
raised together as far as they go; one that can't be raised while the others stay stands still.
Where each could be raised but not all, each of them is tried as the one that stands still.
"""

from collections.abc import Iterable, Sequence
from itertools import combinations, pairwise

from msgspec import Struct

from classclock.screens.canvas.layout.narrowing import NarrowedWays, SizesFound
from classclock.screens.canvas.layout.nodes import Sizes
from classclock.screens.canvas.layout.parts import Role

_ROOM = ("caution", "room")
_MUSTS = (*_ROOM, "coach")


class SizeGroup(Struct, frozen=True):
    """What has one size."""

    name: str
    sizes: tuple[int, ...]
    """Ascending; none for what isn't there at all."""
    role: Role
    matters: int
    drawn: bool = False


_Known = dict[tuple[Sizes, frozenset[int]], SizesFound]
"""The best from some sizes on, where these groups are free."""


def _worth(sizes: Sizes, order: Sequence[int]) -> tuple[list[int], list[int]]:
    """Of groups in an order: the smallest first, then what matters more."""
    each = [sizes[group] for group in order]
    return sorted(each), each


class SizeSearch:
    """Of groups that come in some sizes each."""

    def __init__(self, groups: Sequence[SizeGroup], ways: NarrowedWays) -> None:
        self.groups, self._ways = tuple(groups), ways
        self._larger_sizes = [dict(pairwise((0, *group.sizes))) for group in self.groups]

    def raised(self, found: SizesFound, changes: Iterable[int]) -> SizesFound | None:
        """With these groups in their next larger size; None where that doesn't stand."""
        larger = list(found.sizes)
        for group in changes:
            size = self._larger_sizes[group].get(larger[group])
            if size is None:
                return None
            larger[group] = size
        return self._ways.among(found.ways, tuple(larger))

    def _with(self, found: SizesFound, group: int, size: int) -> SizesFound | None:
        sizes = found.sizes
        return self._ways.among(found.ways, (*sizes[:group], size, *sizes[group + 1 :]))

    def standing(self, sizes: Sizes) -> SizesFound | None:
        """Those that stand in such sizes or, of what leads, in larger ones."""
        return self._ways.among(self._ways.every, sizes)

    def leximin(self, found: SizesFound, free: frozenset[int]) -> SizesFound:
        """All of `free` as large as they get; the others stay."""
        return self._best(found, free, sorted(free, key=self._kept_longest), {})

    def _best(
        self, found: SizesFound, free: frozenset[int], order: Sequence[int], known: _Known
    ) -> SizesFound:
        at = found.sizes, free
        if at not in known:
            known[at] = self._all_grown(found, free, order, known)
        return known[at]

    def _all_grown(
        self, found: SizesFound, free: frozenset[int], order: Sequence[int], known: _Known
    ) -> SizesFound:
        while free:
            least = min(found.sizes[group] for group in free)
            smallest = [group for group in free if found.sizes[group] == least]
            together = self.raised(found, smallest)
            if together is not None:
                found = together
                continue
            still = free.difference(smallest)
            most = self._most_raised(found, smallest)
            if len(most) > 1:
                each = [self._best(found, still | those, order, known) for those in most]
                return max(each, key=lambda one: _worth(one.sizes, order))
            free = still.union(*most)
        return found

    def _most_raised(self, found: SizesFound, those: Sequence[int]) -> list[frozenset[int]]:
        """As many of these as can be raised together, each way: with fewer it is never leximin."""

        def stand(each: Iterable[Sequence[int]]) -> list[frozenset[int]]:
            return [frozenset(some) for some in each if self.raised(found, some) is not None]

        able = [group for group in those if self.raised(found, (group,)) is not None]
        most = min(len(able), len(those) - 1)
        apart: list[tuple[int, int]] = []
        for count in range(most, 0, -1):
            if count == most - 2:  # from here on it pays to know which two never go together
                apart = [two for two in combinations(able, 2) if self.raised(found, two) is None]
            each = combinations(able, count)
            if together := stand(one for one in each if not any(map(set(one).issuperset, apart))):
                return together
        return []

    @property
    def first(self) -> Sizes:
        """The least size of all that must be there."""
        return self._sizes(0)

    @property
    def second(self) -> Sizes:
        """The same, but of what is read from the back the size after that."""
        return self._sizes(1)

    def _sizes(self, of_the_room: int) -> Sizes:
        return tuple(
            0
            if group.role not in _MUSTS
            else group.sizes[min(of_the_room, len(group.sizes) - 1)]
            if group.role in _ROOM
            else group.sizes[0]
            for group in self.groups
        )

    def least(self) -> SizesFound:
        """What must be there in its least size; what doesn't stand even so is left out."""
        if (everything := self.standing(self.first)) is not None:
            return everything
        found = SizesFound((0,) * len(self.groups), self._ways.every)
        musts = [at for at, group in enumerate(self.groups) if group.role in _MUSTS]
        for at in sorted(musts, key=self._kept_longest):
            added = self.raised(found, [at])
            if added is None and self.groups[at].role == "caution":
                sizes = list(found.sizes)
                sizes[at] = self.groups[at].sizes[0]
                added = SizesFound(tuple(sizes), found.ways)
            found = added or found
        return found

    def least_size(self) -> int:
        """The largest size in which all of the room's text stands, or as near to it as it comes."""
        found, reached = self.standing(self.first), 0
        room = [at for at, one in enumerate(self.groups) if one.role in _ROOM and not one.drawn]
        leads = self._leads
        free = [at for at in room if at not in leads]
        while found is not None:
            reached = min((found.sizes[at] for at in free), default=self._ways.rows)
            smallest = [at for at in free if found.sizes[at] == reached]
            found = self.raised(found, smallest) if smallest else None
        return reached

    def _kept_longest(self, group: int) -> tuple[int, int, int]:
        one = self.groups[group]
        return _MUSTS.index(one.role) if one.role in _MUSTS else len(_MUSTS), -one.matters, group

    def largest(self) -> SizesFound:
        """What is read from the back by leximin; the rest, what matters most first; what leads."""
        found, groups = self.least(), self.groups
        leads = self._leads
        room = frozenset(
            at
            for at, group in enumerate(groups)
            if group.role in _ROOM and not group.drawn and found.sizes[at] and at not in leads
        )
        found = self.leximin(found, room)
        read = [size for at in (*room, *leads) if (size := found.sizes[at])]
        most = min(read, default=self._ways.rows)
        others = [at for at, group in enumerate(groups) if group.role not in _ROOM]
        others.sort(key=lambda at: -groups[at].matters)
        for at in others:
            if not found.sizes[at]:
                found = self.raised(found, [at]) or found
        for at in leads:
            found = self._grown(found, at, self._ways.rows)
        for at in others:
            found = self._grown(found, at, most)
        return found

    @property
    def _leads(self) -> tuple[int, ...]:
        lead = self._ways.lead
        return () if lead is None else (lead.group,)

    def _grown(self, found: SizesFound, group: int, most: int) -> SizesFound:
        """With a group as large as it gets, up to a size; one that isn't there stays so."""
        larger = [size for size in self.groups[group].sizes if found.sizes[group] < size <= most]
        while found.sizes[group] and larger:
            middle = len(larger) // 2
            grown = self._with(found, group, larger[middle])
            larger = larger[:middle] if grown is None else larger[middle + 1 :]
            found = grown or found
        return found
