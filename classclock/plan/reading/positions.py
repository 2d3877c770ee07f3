"""On which line each key of a plan stands."""

from typing import TYPE_CHECKING

from classclock.plan.findings import Path

if TYPE_CHECKING:
    from tree_sitter import Node

# Nothing in a plan is nested deeper than this; what is, is named by the line it begins on.
_DEEPEST = 8
_KEYS = {"bare_key", "quoted_key", "dotted_key"}


def syntax_tree(text: str) -> "Node":
    """Parse TOML, faults and all. Rows count from 0."""
    # Only a plan with a fault in it needs this.
    import tree_sitter_toml  # noqa: PLC0415
    from tree_sitter import Language, Parser  # noqa: PLC0415

    parser = Parser(Language(tree_sitter_toml.language()))
    return parser.parse(text.encode("utf-8", "replace")).root_node


class Positions:
    """The line of every key and list item, by its path; a path that isn't there has its table's."""

    def __init__(self, text: str) -> None:
        self._lines: dict[Path, int] = {(): 1}
        self._items: dict[Path, int] = {}
        for node in syntax_tree(text).children:
            if node.type == "pair":
                self._pair(node, ())
            elif node.type in {"table", "table_array_element"}:
                self._table(node)

    def line(self, path: Path) -> int:
        """Find the line of the path, or of the nearest thing around it, from 1."""
        while path not in self._lines:
            path = path[:-1]
        return self._lines[path]

    def _table(self, node: "Node") -> None:
        key = next((child for child in node.children if child.type in _KEYS), None)
        if key is None:
            return
        path: Path = ()
        parts = _parts(key)
        for number, part in enumerate(parts):
            path = (*path, part)
            if node.type == "table_array_element" and number == len(parts) - 1:
                self._items[path] = self._items.get(path, -1) + 1
            if path in self._items:
                path = (*path, self._items[path])
        self._lines.setdefault(path[:-1], _line(node))
        self._lines[path] = _line(node)
        for child in node.children:
            if child.type == "pair":
                self._pair(child, path)

    def _pair(self, node: "Node", table: Path) -> None:
        key = node.children[0]
        path = table
        for part in _parts(key):
            path = (*path, part)
            self._lines.setdefault(path, _line(key))
        if len(node.children) > 2:
            self._value(node.children[2], path)

    def _value(self, node: "Node", path: Path) -> None:
        if len(path) >= _DEEPEST:
            return
        if node.type == "inline_table":
            for child in node.children:
                if child.type == "pair":
                    self._pair(child, path)
        elif node.type == "array":
            items = (child for child in node.children if child.is_named and child.type != "comment")
            for number, item in enumerate(items):
                self._lines.setdefault((*path, number), _line(item))
                self._value(item, (*path, number))


def _line(node: "Node") -> int:
    return node.start_point.row + 1


def _parts(key: "Node") -> list[str]:
    """Split a key at its dots, outermost first."""
    parts: list[str] = []
    # The dotted keys of a long key hold each other, so a loop rather than a recursion.
    while key.type == "dotted_key":
        parts.append(_name(key.children[-1]))
        key = key.children[0]
    return [_name(key), *reversed(parts)]


def _name(key: "Node") -> str:
    text = (key.text or b"").decode("utf-8", "replace")
    return text[1:-1] if key.type == "quoted_key" else text
