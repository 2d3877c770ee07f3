"""Reading TOML to the end, though there are faults in it."""

import re
import tomllib
from typing import TYPE_CHECKING

from msgspec import Struct

from classclock.plan.findings import LineFault
from classclock.plan.reading.brackets import CLOSERS, depth_of, unclosed
from classclock.plan.reading.positions import syntax_tree

if TYPE_CHECKING:
    from collections.abc import Mapping

    from tree_sitter import Node

    from classclock.plan.file_key import FileKey

_MOST_FAULTS = 50
# Each fault has the whole text read again: a plan's few pages go through to the end, and a file
# that is no plan is answered within a second.
_MOST_TRIES = 80
_MOST_SIGNS = 300_000
_LONGEST_LINE = 4_000
_PLACE = r"at line (\d+)"
_ONE_BRACKET = r"\s*\[\s*(segment(?:\.station)?)\s*\]\s*(#.*)?"
_TWICE = r"overwrite|twice|duplicate|redefine|mutate"
_FIRST_KEY = r"\s*\[*\s*([A-Za-z0-9_.-]+)"


class Toml(Struct, frozen=True):
    """What a text says. With faults `values` is what was likely meant, `text` how it was read."""

    values: dict[str, object]
    text: str
    faults: tuple[LineFault, ...]


def read_toml(text: str, keys: "Mapping[str, FileKey] | None" = None) -> Toml:
    """Read TOML line by line faithfully; a line that can't be read is mended or left out.

    `keys` are those of the file; a plan's unless they are given.
    """
    return _Reader(text.removeprefix("\ufeff").replace("\r\n", "\n"), keys).read()


class _Reader:
    def __init__(self, text: str, keys: "Mapping[str, FileKey] | None") -> None:
        self._lines = text.split("\n")
        self._keys = keys
        self._faults: list[LineFault] = []
        self._touched: set[int] = set()

    def read(self) -> Toml:
        self._refuse_long_lines()
        self._double_single_brackets()
        size = sum(len(line) + 1 for line in self._lines)
        for _ in range(min(_MOST_TRIES, 1 + _MOST_SIGNS // size)):
            if len(self._faults) >= _MOST_FAULTS:
                break
            text = "\n".join(self._lines)
            try:
                return Toml(tomllib.loads(text), text, tuple(self._faults))
            except RecursionError:
                self._refuse_nesting()
            except ValueError as error:
                self._refuse(text, str(error))
        last = LineFault(self._faults[-1].line, "too many faults to go on", _FIRST)
        return Toml({}, "", (*self._faults, last))

    def _fault(self, row: int, what: str, instead: str) -> None:
        self._faults.append(LineFault(row + 1, what, instead))

    def _refuse_long_lines(self) -> None:
        for row, line in enumerate(self._lines):
            if len(line) > _LONGEST_LINE and len(self._faults) < _MOST_FAULTS:
                self._fault(row, "a line of thousands of characters", "Write it on several lines")
                self._lines[row] = ""

    def _double_single_brackets(self) -> None:
        rows = [row for row, line in enumerate(self._lines) if re.fullmatch(_ONE_BRACKET, line)]
        if not rows:
            return
        headings = _table_rows(syntax_tree("\n".join(self._lines)))
        for row in rows[: _MOST_FAULTS - len(self._faults)]:
            if row in headings and (match := re.fullmatch(_ONE_BRACKET, self._lines[row])):
                header = f"[[{match[1]}]]"
                self._fault(row, f"one pair of brackets: [{match[1]}]", f"Write {header}")
                self._lines[row] = header

    def _refuse_nesting(self) -> None:
        depths = [line.count("[") + line.count("{") for line in self._lines]
        row = depths.index(max(depths))
        self._fault(row, "brackets within brackets, far too many", "Take them out")
        self._lines = [""]

    def _refuse(self, text: str, error: str) -> None:
        root = syntax_tree(text)
        fault = _first_fault(root)
        place = re.search(_PLACE, error)
        reported = int(place[1]) - 1 if place else len(self._lines) - 1
        if fault is None:
            self._refuse_value(root, reported, error)
            return
        row = fault.start_point.row
        if not self._lines[row].strip():
            row = reported
        if row in self._touched or not self._lines[row].strip():
            self._blank_again(row if self._lines[row].strip() else reported)
        elif not self._close_bracket(row):
            self._mend(row)

    def _blank_again(self, row: int) -> None:
        """Leave out a line that was mended in vain, or the nearest one with anything in it."""
        while row and not self._lines[row].strip():
            row -= 1
        if not self._lines[row].strip():
            self._fault(row, "the file can't be read from here on", _FIRST)
            self._lines = [""]
            return
        if row not in self._touched:
            self._fault(row, "this line can't be read", 'Write key = "value"')
        self._lines[row] = ""
        self._touched.add(row)

    def _close_bracket(self, row: int) -> bool:
        """Close a list or table that ran on into the next line, and read that line as it is."""
        start = unclosed(self._lines, row)
        if start is None:
            return False
        opener = start[1]
        first = start[0]
        if opener == "{" and first == row:
            return self._join_table(row)
        if first == row:
            return False
        key = _key_of(self._lines[first])
        closer = CLOSERS[opener]
        self._fault(
            first,
            f'"{key}" is opened with {opener} and not closed',
            f"Write {closer}, or the comma that is missing",
        )
        self._lines[row - 1] += closer
        self._touched.add(first)
        return True

    def _join_table(self, row: int) -> bool:
        """Read a table in braces that was written over several lines."""
        last = row
        depth = depth_of(self._lines[row])
        while depth > 0 and last + 1 < len(self._lines) and last < row + 20:
            last += 1
            depth += depth_of(self._lines[last])
        if depth or last == row:
            return False
        key = _key_of(self._lines[row])
        self._fault(row, f'"{key}" runs over several lines', "Write all between { and } on one")
        joined = " ".join(line.strip() for line in self._lines[row : last + 1])
        self._lines[row : last + 1] = [re.sub(r",\s*}", " }", joined), *[""] * (last - row)]
        self._touched.update(range(row, last + 1))
        return True

    def _mend(self, row: int) -> None:
        from classclock.plan.reading.mending import mend  # noqa: PLC0415  faulty files only

        mends = mend(self._lines[row], self._keys)
        follows = row - 1 in self._touched and not self._lines[row - 1]
        if not (follows and not mends[-1].line):
            for one in mends:
                self._fault(row, one.what, one.instead)
        self._lines[row] = mends[-1].line
        self._touched.add(row)

    def _refuse_value(self, root: "Node", reported: int, error: str) -> None:
        """Leave out what tree-sitter takes and TOML doesn't: a second key, an impossible date."""
        first = _start_of_pair(root, reported)
        line = self._lines[first]
        key = _key_of(line)
        if not line.strip():
            self._blank_again(reported)
            return
        if re.search(_TWICE, error, re.IGNORECASE):
            self._fault(first, f'"{key}" stands here a second time', "Keep one of the two")
        elif first not in self._touched:
            from classclock.plan.reading.mending import mend  # noqa: PLC0415  as above

            one = mend(line, self._keys)[0]
            self._fault(first, one.what, one.instead)
        for row in range(first, reported + 1):
            self._lines[row] = ""
            self._touched.add(row)


_FIRST = "Set right what stands above, then check again"


def _first_fault(root: "Node") -> "Node | None":
    # A cursor goes only where the fault is; a list of all children costs more than the parsing.
    cursor = root.walk()
    node = cursor.node
    while node is not None and node.has_error:
        if node.is_error or node.is_missing:
            return node
        if not cursor.goto_first_child():
            return None
        node = cursor.node
        while node is not None and not node.has_error and cursor.goto_next_sibling():
            node = cursor.node
    return None


def _table_rows(root: "Node") -> set[int]:
    return {child.start_point.row for child in root.children if child.type == "table"}


def _start_of_pair(root: "Node", row: int) -> int:
    """Find the row on which the key begins whose value ends in this row."""
    for child in root.children:
        if child.start_point.row <= row <= child.end_point.row:
            pairs = [child, *child.children]
            starts = [
                pair.start_point.row
                for pair in pairs
                if pair.type == "pair" and pair.start_point.row <= row <= pair.end_point.row
            ]
            return starts[0] if starts else row
    return row


def _key_of(line: str) -> str:
    match = re.match(_FIRST_KEY, line)
    return match[1] if match else line.strip()
