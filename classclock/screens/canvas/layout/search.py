"""The largest sizes that stand in a box: leximin, exactly.

Of the sizes of all groups that are read from the back the smallest is as large as it can be, then
the next smallest, and so on. What stands in some sizes stands in smaller ones too, so all are
raised together as far as they go; one that can't be raised while the others stay stands still.
Where each could be raised but not all, each of them is tried as the one that stands still.
"""

from collections.abc import Sequence
from math import ceil

from msgspec import Struct

from classclock.screens.canvas.layout.nodes import Node, Sizes, stands
from classclock.screens.canvas.layout.parts import Role

_ROOM = ("caution", "room")
_MUSTS = (*_ROOM, "coach")


class SizeGroup(Struct, frozen=True):
    """What has one size."""

    name: str
    sizes: tuple[int, ...]
    """Ascending."""
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
        self._groups, self._box, self._lead = tuple(groups), (columns, rows), lead

    def raised(self, found: SizesFound, changes: Sequence[int]) -> SizesFound | None:
        """With these groups in their next larger size; None where that doesn't stand."""
        sizes = list(found.sizes)
        for group in changes:
            larger = self._next(group, sizes[group])
            if larger is None:
                return None
            sizes[group] = larger
        return self.standing(tuple(sizes), found.nodes)

    def standing(self, sizes: Sizes, nodes: Sequence[Node]) -> SizesFound | None:
        """Those of the nodes that stand in such sizes or, of what leads, in larger ones."""
        led = self._led(sizes)
        if led is None:
            return None
        columns, rows = self._box
        there = {group for group, size in enumerate(led) if size}
        left = tuple(
            [node for node in nodes if there <= node.groups and stands(node, columns, rows, led)]
        )
        return SizesFound(led, left) if left else None

    def _next(self, group: int, size: int) -> int | None:
        return next((one for one in self._groups[group].sizes if one > size), None)

    def _led(self, sizes: Sizes) -> Sizes | None:
        lead = self._lead
        if lead is None or not sizes[lead.group]:
            return sizes
        others = [size for group, size in enumerate(sizes) if group != lead.group]
        over = [ceil(lead.times * sizes[group]) for group in lead.over]
        least = max((*others, *over, sizes[lead.group]))
        size = next((one for one in self._groups[lead.group].sizes if one >= least), None)
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
                stuck = [group for group in smallest if self.raised(found, [group]) is None]
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
            for group in self._groups
        )

    def least(self, nodes: Sequence[Node]) -> SizesFound:
        """What must be there in its least size; what doesn't stand even so is left out."""
        if (everything := self.standing(self.first, nodes)) is not None:
            return everything
        found = SizesFound((0,) * len(self._groups), tuple(nodes))
        musts = [at for at, group in enumerate(self._groups) if group.role in _MUSTS]
        for at in sorted(musts, key=self._kept_longest):
            added = self.raised(found, [at])
            if added is None and self._groups[at].role == "caution":
                sizes = list(found.sizes)
                sizes[at] = self._groups[at].sizes[0]
                added = SizesFound(tuple(sizes), found.nodes)
            found = added or found
        return found

    def _kept_longest(self, group: int) -> tuple[int, int, int]:
        one = self._groups[group]
        return _MUSTS.index(one.role) if one.role in _MUSTS else len(_MUSTS), -one.matters, group

    def largest(self, nodes: Sequence[Node]) -> SizesFound:
        """What is read from the back by leximin; then the rest, what matters most first."""
        found, groups = self.least(nodes), self._groups
        room = frozenset(
            at
            for at, group in enumerate(groups)
            if group.role in _ROOM and not group.drawn and found.sizes[at]
        )
        found = self.leximin(found, room)
        most = min((found.sizes[at] for at in room), default=self._box[1])
        others = [at for at, group in enumerate(groups) if group.role not in _ROOM]
        others.sort(key=lambda at: -groups[at].matters)
        for at in others:
            if not found.sizes[at]:
                found = self.raised(found, [at]) or found
        for at in others:
            while found.sizes[at]:
                larger = self.raised(found, [at])
                if larger is None or larger.sizes[at] > most:
                    break
                found = larger
        return found
