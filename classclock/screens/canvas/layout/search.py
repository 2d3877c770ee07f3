"""The largest sizes that stand in a box: leximin, exactly.

Of the sizes of all groups that are read from the back the smallest is as large as it can be, then
the next smallest, and so on. What stands in some sizes stands in smaller ones too, so all are
raised together as far as they go; one that can't be raised while the others stay stands still.
Where each could be raised but not all, each of them is tried as the one that stands still.
"""

from collections.abc import Iterator, Sequence
from math import ceil

from msgspec import Struct

from classclock.screens.canvas.layout.nodes import Node, Sizes
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


class Leading(Struct, frozen=True):
    """The group that is the largest, and so many times as large as some."""

    group: int
    times: float
    over: frozenset[int]


class SizesFound(Struct, frozen=True):
    sizes: Sizes
    nodes: tuple[Node, ...]
    """The ways in which all stands in these sizes, the preferred first."""


class SizeSearch:
    def __init__(
        self, groups: Sequence[SizeGroup], columns: int, rows: int, lead: Leading | None = None
    ) -> None:
        self.groups, self._box, self._lead = tuple(groups), (columns, rows), lead

    def raised(self, found: SizesFound, changes: Sequence[int]) -> SizesFound | None:
        """With these groups in their next larger size; None where that doesn't stand."""
        sizes = self._larger(found.sizes, changes)
        return None if sizes is None else self.standing(sizes, found.nodes)

    def _can_be_raised(self, found: SizesFound, group: int) -> bool:
        sizes = self._larger(found.sizes, [group])
        return sizes is not None and any(self._ways(sizes, found.nodes))

    def standing(self, sizes: Sizes, nodes: Sequence[Node]) -> SizesFound | None:
        """Those that stand in such sizes or, of what leads, in larger ones.

        The others stand in no larger sizes either.
        """
        left = tuple(self._ways(sizes, nodes))
        return SizesFound(self._led(sizes) or sizes, left) if left else None

    def _ways(self, sizes: Sizes, nodes: Sequence[Node]) -> Iterator[Node]:
        led = self._led(sizes)
        if led is None:
            return
        columns, rows = self._box
        there = {group for group, size in enumerate(led) if size}
        for node in nodes:
            if there <= node.groups and node.stands(columns, rows, led):
                yield node

    def _larger(self, sizes: Sizes, changes: Sequence[int]) -> Sizes | None:
        larger = list(sizes)
        for group in changes:
            size = self._next(group, sizes[group])
            if size is None:
                return None
            larger[group] = size
        return tuple(larger)

    def _next(self, group: int, size: int) -> int | None:
        return next((one for one in self.groups[group].sizes if one > size), None)

    def _led(self, sizes: Sizes) -> Sizes | None:
        lead = self._lead
        if lead is None or not sizes[lead.group]:
            return sizes
        others = [size for group, size in enumerate(sizes) if group != lead.group]
        over = [ceil(lead.times * sizes[group]) for group in lead.over]
        least = max((*others, *over, sizes[lead.group]))
        size = next((one for one in self.groups[lead.group].sizes if one >= least), None)
        if size is None:
            return None
        return tuple(size if group == lead.group else one for group, one in enumerate(sizes))

    def leximin(self, found: SizesFound, free: frozenset[int]) -> SizesFound:
        """All of `free` as large as they get; the others stay."""
        kept: dict[tuple[Sizes, frozenset[int]], SizesFound] = {}
        order = sorted(free, key=self._kept_longest)

        def worth(one: SizesFound) -> tuple[list[int], list[int]]:
            return sorted(one.sizes[g] for g in free), [one.sizes[g] for g in order]

        def best(found: SizesFound, free: frozenset[int]) -> SizesFound:
            at = found.sizes, free
            if at not in kept:
                kept[at] = grown(found, free)
            return kept[at]

        def grown(found: SizesFound, free: frozenset[int]) -> SizesFound:
            while free:
                least = min(found.sizes[group] for group in free)
                smallest = [group for group in free if found.sizes[group] == least]
                together = self.raised(found, smallest)
                if together is not None:
                    found = together
                    continue
                stuck = [group for group in smallest if not self._can_be_raised(found, group)]
                if not stuck:
                    return max((best(found, free - {g}) for g in smallest), key=worth)
                free = free.difference(stuck)
            return found

        return best(found, free)

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

    def least(self, nodes: Sequence[Node]) -> SizesFound:
        """What must be there in its least size; what doesn't stand even so is left out."""
        if (everything := self.standing(self.first, nodes)) is not None:
            return everything
        found = SizesFound((0,) * len(self.groups), tuple(nodes))
        musts = [at for at, group in enumerate(self.groups) if group.role in _MUSTS]
        for at in sorted(musts, key=self._kept_longest):
            added = self.raised(found, [at])
            if added is None and self.groups[at].role == "caution":
                sizes = list(found.sizes)
                sizes[at] = self.groups[at].sizes[0]
                added = SizesFound(tuple(sizes), found.nodes)
            found = added or found
        return found

    def least_size(self, nodes: Sequence[Node]) -> int:
        """The largest size in which all of the room's text stands, or as near to it as it comes."""
        found, reached = self.standing(self.first, nodes), 0
        room = [at for at, one in enumerate(self.groups) if one.role in _ROOM and not one.drawn]
        leads = () if self._lead is None else (self._lead.group,)
        free = [at for at in room if at not in leads]
        while found is not None:
            reached = min((found.sizes[at] for at in free), default=self._box[1])
            smallest = [at for at in free if found.sizes[at] == reached]
            found = self.raised(found, smallest) if smallest else None
        return reached

    def _kept_longest(self, group: int) -> tuple[int, int, int]:
        one = self.groups[group]
        return _MUSTS.index(one.role) if one.role in _MUSTS else len(_MUSTS), -one.matters, group

    def largest(self, nodes: Sequence[Node]) -> SizesFound:
        """What is read from the back by leximin; the rest, what matters most first; what leads."""
        found, groups = self.least(nodes), self.groups
        leads = () if self._lead is None else (self._lead.group,)
        room = frozenset(
            at
            for at, group in enumerate(groups)
            if group.role in _ROOM and not group.drawn and found.sizes[at] and at not in leads
        )
        found = self.leximin(found, room)
        read = [size for at in (*room, *leads) if (size := found.sizes[at])]
        most = min(read, default=self._box[1])
        others = [at for at, group in enumerate(groups) if group.role not in _ROOM]
        others.sort(key=lambda at: -groups[at].matters)
        for at in others:
            if not found.sizes[at]:
                found = self.raised(found, [at]) or found
        for at in leads:
            found = self._grown(found, at, self._box[1])
        for at in others:
            found = self._grown(found, at, most)
        return found

    def _grown(self, found: SizesFound, group: int, most: int) -> SizesFound:
        """With a group as large as it gets, up to a size; one that isn't there stays so."""
        while found.sizes[group]:
            larger = self.raised(found, [group])
            if larger is None or larger.sizes[group] > most:
                break
            found = larger
        return found
