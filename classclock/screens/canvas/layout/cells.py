"""The cells of a column: what each takes, worked out for all of them at once."""

from collections.abc import Iterable, Sequence

from classclock.screens.canvas.layout.keeping import Keeping, kept_sizes
from classclock.screens.canvas.layout.leaves import WrittenNode
from classclock.screens.canvas.layout.nodes import ENDLESS, NEVER, Node, Sizes
from classclock.screens.canvas.layout.stacks import BesideNode, StackNode

_Lengths = Sequence[int]
Extents = tuple[_Lengths, _Lengths, _Lengths]
"""Of each cell the fewest columns in which it ever stands, those from which on nothing in it is
broken, and the rows that it takes then. All three are 0 of one that isn't there."""


class Cells(Keeping):
    """Nodes that are asked one by one."""

    def __init__(self, nodes: Sequence[Node]) -> None:
        self._nodes = tuple(nodes)
        self.groups = frozenset[int]().union(*(node.groups for node in nodes))

    @kept_sizes
    def extents(self, sizes: Sizes) -> Extents:
        each = [_extent(node, sizes) for node in self._nodes]
        return [one[0] for one in each], [one[1] for one in each], [one[2] for one in each]


def _extent(node: Node, sizes: Sizes) -> tuple[int, int, int]:
    if isinstance(node, WrittenNode):
        size = sizes[node.group]
        return (*node.widths(size), size) if size and not node.empty else (0, 0, 0)
    wide, high = node.columns(ENDLESS, sizes), node.rows(ENDLESS, sizes)
    return wide, (NEVER if node.bends and high else wide), high


class _Parted(Cells):
    """Nodes of as many parts: those that are first in theirs are cells of their own, and so on."""

    def __init__(self, nodes: Sequence[StackNode] | Sequence[BesideNode]) -> None:
        super().__init__(nodes)
        self._gap = nodes[0].gap
        self._parts = [cells_of(parts) for parts in zip(*[n.parts for n in nodes], strict=True)]

    def _each(self, sizes: Sizes) -> Iterable[tuple[_Lengths, ...]]:
        """The lengths of one kind, by part and cell."""
        return zip(*[part.extents(sizes) for part in self._parts], strict=True)

    def _added(self, lengths: Iterable[_Lengths]) -> _Lengths:
        gap, there = self._gap, [part for part in lengths if any(part)]
        if len(there) < 2:
            return there[0] if there else [0] * len(self._nodes)
        each = zip(*[[one and one + gap for one in part] for part in there], strict=True)
        return [min(NEVER, max(0, sum(cell) - gap)) for cell in each]

    def _most(self, lengths: Iterable[_Lengths]) -> _Lengths:
        there = [part for part in lengths if any(part)]
        if len(there) < 2:
            return there[0] if there else [0] * len(self._nodes)
        return list(map(max, *there))


class _Beside(_Parted):
    @kept_sizes
    def extents(self, sizes: Sizes) -> Extents:
        leasts, wholes, highs = self._each(sizes)
        least = self._added(leasts)
        return least, least if wholes == leasts else self._added(wholes), self._most(highs)


class _Stacked(_Parted):
    @kept_sizes
    def extents(self, sizes: Sizes) -> Extents:
        leasts, wholes, highs = self._each(sizes)
        least = self._most(leasts)
        return least, least if wholes == leasts else self._most(wholes), self._added(highs)


def cells_of(nodes: Sequence[Node]) -> Cells:
    """These nodes, part by part where all of them have as many."""
    beside = [node for node in nodes if isinstance(node, BesideNode)]
    if _alike(nodes, beside):
        return _Beside(beside)
    stacked = [node for node in nodes if isinstance(node, StackNode)]
    return _Stacked(stacked) if _alike(nodes, stacked) else Cells(nodes)


def _alike(nodes: Sequence[Node], of_a_kind: Sequence[BesideNode] | Sequence[StackNode]) -> bool:
    kinds = {(node.gap, len(node.parts)) for node in of_a_kind if node.parts}
    return len(of_a_kind) == len(nodes) and len(kinds) == 1
