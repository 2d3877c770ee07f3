"""A plan's text in parts: what stands before the segments, each segment, each station.

The text itself is what is edited, line by line, so that everything an edit doesn't touch stays as
it was written, its comments and its blank lines too. A text with faults has its parts all the same.
"""

from collections.abc import Iterator
from typing import TYPE_CHECKING, Literal

from msgspec import Struct

from classclock.plan.reading.positions import syntax_tree

if TYPE_CHECKING:
    from tree_sitter import Node

PartKind = Literal["plan", "segment", "station"]
PartPlace = tuple[int, int]
"""Which segment and which of its stations, from 0; -1 means none."""
HEAD: PartPlace = (-1, -1)
"""The place of what stands before the segments."""


class Pair(Struct, frozen=True):
    """A key and its value; rows are counted from 0, bytes in UTF-8."""

    key: str
    source: str
    """The value as it is written."""
    column: int
    """Where its `=` stands, in bytes from the key's first sign."""
    row: int
    last_row: int
    start: int
    end: int
    """The bytes of the value."""


class Part(Struct, frozen=True):
    """Some rows of the text; the comments right above a heading belong to it."""

    kind: PartKind
    place: PartPlace
    start: int
    heading: int
    end: int
    """The row after its last: a segment ends where its first station starts."""
    pairs: tuple[Pair, ...]

    def pair(self, key: str) -> Pair | None:
        return next((pair for pair in self.pairs if pair.key == key), None)


def parts_of(text: str) -> tuple[Part, ...]:
    """Every part in its order, what stands before the segments first."""
    lines = text.split("\n")
    headings = list(_headings(text))
    parts: list[Part] = []
    starts = [0]
    for node, _, _ in headings[1:]:
        row = start = node.start_point.row
        floor = max(starts[-1], _last_row_before(text, headings, row) + 1)
        while start > floor and lines[start - 1].lstrip().startswith("#"):
            start -= 1
        starts.append(start)
    ends = [*starts[1:], len(lines)]
    for (node, kind, place), start, end in zip(headings, starts, ends, strict=True):
        pairs = tuple(_pair(child) for child in node.children if _whole(child))
        heading = 0 if kind == "plan" else node.start_point.row
        parts.append(Part(kind, place, start, heading, end, pairs))
    return tuple(parts)


def _headings(text: str) -> Iterator[tuple["Node", PartKind, PartPlace]]:
    root = syntax_tree(text)
    yield root, "plan", HEAD
    segment = station = -1
    for node in root.children:
        if node.type != "table_array_element":
            continue
        name = _heading_name(node)
        if name == "segment":
            segment, station = segment + 1, -1
            yield node, "segment", (segment, -1)
        elif name == "segment.station" and segment >= 0:
            station += 1
            yield node, "station", (segment, station)


def _heading_name(node: "Node") -> str:
    kinds = {"bare_key", "quoted_key", "dotted_key"}
    key = next((child for child in node.children if child.type in kinds), None)
    return "" if key is None else _text(key).replace(" ", "").replace('"', "")


def _last_row_before(
    text: str, headings: list[tuple["Node", PartKind, PartPlace]], row: int
) -> int:
    """The last row before this one that holds more than a comment or nothing."""
    lines = text.split("\n")
    rows = [
        pair.end_point.row
        for node, _, _ in headings
        for pair in node.children
        if pair.type == "pair" and pair.end_point.row < row
    ]
    last = max(rows, default=-1)
    for number in range(row - 1, last, -1):
        if lines[number].strip() and not lines[number].lstrip().startswith("#"):
            return number
    return last


def _whole(node: "Node") -> bool:
    return node.type == "pair" and len(node.children) > 2 and not node.has_error


def _pair(node: "Node") -> Pair:
    key, equals, value = node.children[:3]
    return Pair(
        key=_text(key).strip('"'),
        source=_text(value),
        column=equals.start_byte - key.start_byte,
        row=node.start_point.row,
        last_row=value.end_point.row,
        start=value.start_byte,
        end=value.end_byte,
    )


def _text(node: "Node") -> str:
    return (node.text or b"").decode("utf-8", "replace")
