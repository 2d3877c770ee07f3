"""Edits of a plan's text: each gives the new text, and leaves all else as it was written."""

from itertools import pairwise

from classclock.plan.amounts import AMOUNTS
from classclock.plan.editing.fields import ORDER
from classclock.plan.editing.parts import HEAD, Part, PartPlace, parts_of
from classclock.plan.editing.values import amount_in, to_toml
from classclock.plan.editing.writing import quoted

_INDENT = "  "


def part_at(text: str, place: PartPlace) -> Part:
    """The part at that place. Raises LookupError where there is none."""
    for part in parts_of(text):
        if part.place == place:
            return part
    raise LookupError(place)


# -- keys ---------------------------------------------------------------------------


def set_typed(text: str, place: PartPlace, key: str, typed: str) -> str:
    """Set a key from what was typed; nothing typed takes the key out."""
    if key == "amount":
        return _set_amount(text, place, typed)
    if not typed.strip():
        return remove_key(text, place, key)
    return set_key(text, place, key, to_toml(key, typed))


def set_key(text: str, place: PartPlace, key: str, value: str) -> str:
    """Set a key to a value in TOML: in its own line, or in a new one where it usually stands."""
    part = part_at(text, place)
    pair = part.pair(key)
    if pair is not None:
        data = text.encode()
        return (data[: pair.start] + value.encode() + data[pair.end :]).decode()
    lines = text.split("\n")
    order = ORDER[part.kind]
    rank = order.index(key) if key in order else len(order)
    before = [one for one in part.pairs if (order.index(one.key) if one.key in order else 0) < rank]
    line = f"{_indent(lines, part)}{key.ljust(max(_width(part), len(key) + 1))}= {value}"
    if before:
        row = max(one.last_row for one in before) + 1
    elif part.kind != "plan":
        row = part.heading + 1
    elif part.pairs:
        row = part.pairs[0].row
    else:
        return _first_key(lines, part, line)
    return "\n".join([*lines[:row], line, *lines[row:]])


def _first_key(lines: list[str], part: Part, line: str) -> str:
    """The first key of a plan: under the comments at its top."""
    row = part.end
    while row > 0 and not lines[row - 1].strip():
        row -= 1
    above = ["", line] if row else [line]
    below = lines[row:] if row < len(lines) and not lines[row].strip() else ["", *lines[row:]]
    return "\n".join([*lines[:row], *above, *below])


def remove_key(text: str, place: PartPlace, key: str) -> str:
    pair = part_at(text, place).pair(key)
    if pair is None:
        return text
    lines = text.split("\n")
    return "\n".join([*lines[: pair.row], *lines[pair.last_row + 1 :]])


def _set_amount(text: str, place: PartPlace, typed: str) -> str:
    key, value = amount_in(typed) or ("", "")
    if key:
        text = set_key(text, place, key, value)
    for other in AMOUNTS:
        if other != key:
            text = remove_key(text, place, other)
    return text


def _indent(lines: list[str], part: Part) -> str:
    if part.kind == "plan" and not part.pairs:
        return ""
    like = lines[part.pairs[0].row if part.pairs else part.heading]
    return like[: len(like) - len(like.lstrip())]


def _width(part: Part) -> int:
    """As wide as keys are written up to their `=`, where they are in line; else one space."""
    columns = {pair.column for pair in part.pairs}
    return columns.pop() if len(columns) == 1 and len(part.pairs) > 1 else 0


# -- segments and stations --------------------------------------------------------------


def insert_segment(text: str, after: int, block: str) -> tuple[str, PartPlace]:
    """Put a segment behind the one with that number, -1 at the front; the text, and its place."""
    run = _segments(text)
    run.insert(after + 2, block)
    return run.text, (after + 1, -1)


def insert_station(
    text: str, after: PartPlace, movement: str, amount: str = ""
) -> tuple[str, PartPlace]:
    """Put a station behind another, or at the front of a segment; the text, and its place."""
    segment, station = after
    indent = _station_indent(text)
    block = f"{indent}[[segment.station]]\n{indent}movement = {quoted(movement)}"
    run = _stations(text, segment)
    run.insert(station + 2, block)
    place = (segment, station + 1)
    return set_typed(run.text, place, "amount", amount) if amount.strip() else run.text, place


def remove(text: str, place: PartPlace) -> str:
    """Take out a segment with its stations, or a station."""
    run, number = _run_of(text, place)
    run.remove(number)
    return run.text


def move(text: str, place: PartPlace, by: int) -> tuple[str, PartPlace]:
    """Change places with the neighbour before (-1) or behind (1); at an end nothing moves."""
    run, number = _run_of(text, place)
    other = number + by
    if not 1 <= other < len(run.blocks):
        return text, place
    run.blocks[number], run.blocks[other] = run.blocks[other], run.blocks[number]
    segment, station = place
    return run.text, (segment + by, -1) if station < 0 else (segment, station + by)


def duplicate(text: str, place: PartPlace) -> tuple[str, PartPlace]:
    """The same again, right behind; a segment's copy gets a name of its own."""
    run, number = _run_of(text, place)
    run.insert(number + 1, "\n".join(run.blocks[number]))
    segment, station = place
    if station >= 0:
        return run.text, (segment, station + 1)
    again = (segment + 1, -1)
    name = part_at(run.text, again).pair("name")
    if name is None or not name.source.startswith('"'):
        return run.text, again
    return set_key(run.text, again, "name", f'{name.source[:-1]} 2"'), again


class _Run:
    """Blocks of lines with the blank lines after each: a block may move, the blank lines stay.

    The first block is what stands before those that can be moved.
    """

    def __init__(
        self, before: list[str], within: list[str], after: list[str], starts: list[int]
    ) -> None:
        self._before, self._after = before, after
        self.blocks: list[list[str]] = []
        self._gaps: list[list[str]] = []
        for start, end in pairwise([0, *starts, len(within)]):
            filled = end
            while filled > start and not within[filled - 1].strip():
                filled -= 1
            self.blocks.append(within[start:filled])
            self._gaps.append(within[filled:end])

    @property
    def text(self) -> str:
        pairs = zip(self.blocks, self._gaps, strict=True)
        within = [line for block, gap in pairs for line in (*block, *gap)]
        return "\n".join([*self._before, *within, *self._after])

    def insert(self, at: int, block: str) -> None:
        gap = self._gaps[at - 1]
        if at == len(self.blocks):
            self._gaps[at - 1] = [""] if self.blocks[at - 1] else []
            self._gaps.append(gap or [""])
        else:
            self._gaps[at - 1] = gap or [""]
            self._gaps.insert(at, [""])
        self.blocks.insert(at, block.split("\n"))

    def remove(self, at: int) -> None:
        del self.blocks[at]
        gap = self._gaps.pop(at)
        if at == len(self.blocks):
            self._gaps[at - 1] = gap


def _run_of(text: str, place: PartPlace) -> tuple[_Run, int]:
    segment, station = place
    if place == HEAD:
        raise LookupError(place)
    part_at(text, place)
    if station < 0:
        return _segments(text), segment + 1
    return _stations(text, segment), station + 1


def _segments(text: str) -> _Run:
    starts = [part.start for part in parts_of(text) if part.kind == "segment"]
    return _Run([], text.split("\n"), [], starts)


def _stations(text: str, segment: int) -> _Run:
    lines = text.split("\n")
    parts = [part for part in parts_of(text) if part.place[0] == segment]
    if not parts:
        raise LookupError(segment)
    first, last = parts[0].start, parts[-1].end
    starts = [part.start - first for part in parts[1:]]
    return _Run(lines[:first], lines[first:last], lines[last:], starts)


def _station_indent(text: str) -> str:
    for part in parts_of(text):
        if part.kind == "station":
            line = text.split("\n")[part.heading]
            return line[: len(line) - len(line.lstrip())]
    return _INDENT
