"""The keys laid out on pages: pure, in cells."""

from collections.abc import Sequence
from itertools import groupby
from textwrap import wrap

from msgspec import Struct

from classclock.tally.keys.key_help import KeyLine

_GAP = 2
_LEAST_COLUMN = 48


class KeyRow(Struct, frozen=True):
    """One row of help: a heading, or keys and what they do; a long text goes on below."""

    keys: str = ""
    text: str = ""
    heading: bool = False


class KeyPages(Struct, frozen=True):
    keys_width: int
    column_width: int
    pages: tuple[tuple[tuple[KeyRow, ...], ...], ...]
    """Pages of columns of rows."""


def key_pages(lines: Sequence[KeyLine], columns: int, rows: int) -> KeyPages:
    """All lines, by group, on as few pages of this size as they take."""
    across = max(1, columns // _LEAST_COLUMN)
    width = (columns - _GAP * (across - 1)) // across
    keys = max((len(line.keys) for line in lines), default=0) + 2
    blocks = [block for group in _groups(lines) for block in _blocks(group, width - keys - 1)]
    stacks = _stacked(blocks, max(1, rows))
    pages = tuple(tuple(stacks[at : at + across]) for at in range(0, len(stacks), across))
    return KeyPages(keys, width, pages)


def rows_wanted(lines: Sequence[KeyLine], columns: int, most: int) -> int:
    """The fewest rows in which all lines stand on one page; `most` if they don't."""
    fitting = (rows for rows in range(4, most) if len(key_pages(lines, columns, rows).pages) == 1)
    return next(fitting, most)


def _groups(lines: Sequence[KeyLine]) -> list[list[KeyLine]]:
    by_group = sorted(lines, key=lambda line: _ORDER.index(line.group))
    return [list(group) for _, group in groupby(by_group, key=lambda line: line.group)]


_ORDER = ("counting", "putting right", "clock", "class", "signs")


def _blocks(group: Sequence[KeyLine], width: int) -> list[list[KeyRow]]:
    """What must not be torn apart: the heading with its first line, and each line's own rows."""
    blocks = [_block(line, max(8, width)) for line in group]
    blocks[0] = [KeyRow(text=group[0].group, heading=True), *blocks[0]]
    return blocks


def _block(line: KeyLine, width: int) -> list[KeyRow]:
    first, *others = wrap(line.meaning, width)
    return [KeyRow(line.keys, first), *(KeyRow(text=more) for more in others)]


def _stacked(blocks: Sequence[Sequence[KeyRow]], rows: int) -> list[tuple[KeyRow, ...]]:
    stacks: list[list[KeyRow]] = [[]]
    for block in blocks:
        gap = [KeyRow()] if block[0].heading and stacks[-1] else []
        if stacks[-1] and len(stacks[-1]) + len(gap) + len(block) > rows:
            stacks.append([])
            gap = []
        stacks[-1] += [*gap, *block]
    return [tuple(stack) for stack in stacks]
