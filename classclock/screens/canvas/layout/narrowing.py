"""The ways of a part that stand in a box: fewer as sizes grow, and no sizes are tried twice."""

from bisect import bisect_left
from collections.abc import Iterator, Sequence
from math import ceil
from typing import NamedTuple

from msgspec import Struct

from classclock.screens.canvas.layout.nodes import Node, Sizes


class Leading(Struct, frozen=True):
    """The group that is the largest, and so many times as large as some."""

    group: int
    sizes: tuple[int, ...]
    """Ascending: those that it comes in."""
    times: float
    over: frozenset[int]


class WayLeft(NamedTuple):
    """One in which all stands, and what of its parts' ways is left to try larger sizes in."""

    node: Node
    left: Node


class SizesFound(Struct, frozen=True):
    sizes: Sizes
    ways: tuple[WayLeft, ...]
    """Those in which all stands in these sizes, the preferred first."""


class NarrowedWays:
    """A part that stands in one of some ways, in a box of so many columns and rows."""

    def __init__(
        self, nodes: Sequence[Node], columns: int, rows: int, lead: Leading | None = None
    ) -> None:
        self.lead, self.rows = lead, rows
        self._box = columns, rows
        self.every = tuple(WayLeft(node, node) for node in nodes)
        """All ways, what is preferred first."""
        self._tried: dict[Sizes, SizesFound | None] = {}

    def among(self, ways: Sequence[WayLeft], sizes: Sizes) -> SizesFound | None:
        """Those of the ways that stand in such sizes or, of what leads, in larger ones.

        They must be those that stand in smaller sizes, or all: the others stand in no larger ones.
        """
        if sizes not in self._tried:
            led = self._led(sizes)
            left = () if led is None else tuple(self._left(led, ways))
            self._tried[sizes] = None if led is None or not left else SizesFound(led, left)
        return self._tried[sizes]

    def _left(self, sizes: Sizes, ways: Sequence[WayLeft]) -> Iterator[WayLeft]:
        columns, rows = self._box
        there = {group for group, size in enumerate(sizes) if size}
        for node, those in ways:
            if there <= node.groups and (left := those.left(columns, rows, sizes)) is not None:
                yield WayLeft(node, left)

    def _led(self, sizes: Sizes) -> Sizes | None:
        lead = self.lead
        if lead is None or not sizes[lead.group]:
            return sizes
        least = max([*sizes, *[ceil(lead.times * sizes[group]) for group in lead.over]])
        larger = lead.sizes
        at = bisect_left(larger, least)
        if at == len(larger):
            return None
        return (*sizes[: lead.group], larger[at], *sizes[lead.group + 1 :])
