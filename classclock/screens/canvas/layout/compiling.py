"""Parts as nodes: each way in which they may stand, with its groups numbered."""

from collections.abc import Iterable, Sequence
from itertools import chain, groupby, product

from classclock.screens.canvas.layout.choices import AreaNode, OneOfNode
from classclock.screens.canvas.layout.columns import Column
from classclock.screens.canvas.layout.grids import GridNode
from classclock.screens.canvas.layout.leaves import DrawnNode, WrittenNode
from classclock.screens.canvas.layout.measure import Measure
from classclock.screens.canvas.layout.nodes import Node
from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Drawn,
    Grid,
    OneOf,
    Stack,
    Written,
)
from classclock.screens.canvas.layout.stacks import BesideNode, StackNode

_LEAF = Written, Drawn


def leaves(part: Arrangement) -> list[Written | Drawn]:
    """All texts and drawn things, in order: each once, in however many ways it may stand."""
    seen: dict[int, Written | Drawn | None] = {}
    _look_through((part,), seen)
    return [leaf for leaf in seen.values() if leaf is not None]


def _look_through(parts: Iterable[Arrangement], seen: dict[int, Written | Drawn | None]) -> None:
    for part in parts:
        if id(part) in seen:
            continue
        if isinstance(part, _LEAF):
            seen[id(part)] = part
        else:
            seen[id(part)] = None
            _look_through(_within(part), seen)


def _within(part: Stack | Beside | Area | Grid | OneOf) -> Iterable[Arrangement]:
    match part:
        case Area(part=inner):
            return (inner,)
        case Grid():
            return chain(*part.rows, part.under)
        case _:
            return part.parts


def most_rows(part: Arrangement) -> int:
    """Of the longest table that may be parted over pages; 1 where none may."""
    match part:
        case Grid():
            return max(1, len(part.rows)) if part.paged else 1
        case Stack(parts=parts) | Beside(parts=parts) | OneOf(parts=parts):
            return max(map(most_rows, parts), default=1)
        case Area(part=inner):
            return most_rows(inner)
        case _:
            return 1


def _as_one(nodes: Iterable[Node]) -> list[Node]:
    """Neighbours of the same groups as one node: which of them stands concerns nobody else."""
    runs = [list(run) for _, run in groupby(nodes, key=lambda node: node.groups)]
    return [run[0] if len(run) == 1 else OneOfNode(run) for run in runs]


class Compiler:
    """A part that stands in several ways is measured once for all of them."""

    def __init__(self, groups: Sequence[str], measure: Measure) -> None:
        self._numbers = {group: number for number, group in enumerate(groups)}
        self._measure = measure
        self._made: dict[int, Node] = {}
        self._tables: dict[int, GridNode] = {}
        self._columns: dict[tuple[int, ...], Column] = {}
        self._ways: dict[tuple[int, int], list[Node]] = {}
        self._paged: dict[int, bool] = {}

    def ways(self, part: Arrangement, pages: int = 1) -> list[Node]:
        """The nodes that stand for the part, what is preferred first."""
        at = id(part), pages if pages > 1 and self._is_paged(part) else 1
        if at not in self._ways:
            self._ways[at] = self._each_way(part, at[1])
        return self._ways[at]

    def _is_paged(self, part: Arrangement) -> bool:
        """What has no table that may be parted stands alike on any number of pages."""
        if id(part) not in self._paged:
            self._paged[id(part)] = most_rows(part) > 1
        return self._paged[id(part)]

    def _each_way(self, part: Arrangement, pages: int) -> list[Node]:
        match part:
            case Written() | Drawn():
                return [self._only(part)]
            case OneOf(parts=parts):
                return _as_one(node for one in parts for node in self.ways(one, pages))
            case Area(name=name, part=inner):
                return [AreaNode(name, node) for node in self.ways(inner, pages)]
            case Grid():
                return [self._table(part).on(pages if part.paged else 1)]
            case Stack(parts=parts):
                each = product(*(self.ways(one, pages) for one in parts))
                middle = part.down == "middle"
                return [StackNode(one, part.gap, part.air, middle=middle) for one in each]
            case Beside(parts=parts):
                each = product(*(self.ways(one, pages) for one in parts))
                return [BesideNode(one, part.gap) for one in each]

    def _table(self, table: Grid) -> GridNode:
        if id(table) not in self._tables:
            rows = [self._column(cells) for cells in zip(*table.rows, strict=True)]
            self._tables[id(table)] = GridNode.of(table, rows, self._column(table.under))
        return self._tables[id(table)]

    def _column(self, cells: Sequence[Arrangement]) -> Column:
        at = tuple(map(id, cells))
        if at not in self._columns:
            self._columns[at] = Column([self._only(cell) for cell in cells])
        return self._columns[at]

    def _only(self, part: Arrangement) -> Node:
        """A cell's one way: tables have so many that ways of their parts aren't multiplied out."""
        made = self._made.get(id(part))
        return self._made_of(part) if made is None else made

    def _made_of(self, part: Arrangement) -> Node:
        match part:
            case Written(group=group):
                made: Node = WrittenNode(part, self._numbers[group], self._measure)
            case Drawn(group=group):
                made = DrawnNode(part, self._numbers[group])
            case Beside(parts=parts):
                made = BesideNode([self._only(one) for one in parts], part.gap)
            case Stack(parts=parts):
                each = [self._only(one) for one in parts]
                made = StackNode(each, part.gap, part.air, middle=part.down == "middle")
            case _:
                made, *others = self.ways(part)
                if others:
                    raise ValueError("a cell of a table stands in one way only")
        self._made[id(part)] = made
        return made
