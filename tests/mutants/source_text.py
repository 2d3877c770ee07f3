"""Where the nodes of a syntax tree stand in their file, in bytes."""

import ast
import re
from itertools import accumulate

from msgspec import Struct


class Piece(Struct, frozen=True):
    """Bytes of a file, from `start` to before `end`."""

    start: int
    end: int


class SourceText:
    def __init__(self, source: bytes) -> None:
        self._source = source
        self._lines = [0, *accumulate(map(len, source.splitlines(keepends=True)))]

    def piece(self, node: ast.expr | ast.stmt) -> Piece:
        last, after = node.end_lineno or node.lineno, node.end_col_offset or 0
        return Piece(self._lines[node.lineno - 1] + node.col_offset, self._lines[last - 1] + after)

    def of(self, node: ast.expr | ast.stmt) -> str:
        """As it is written."""
        piece = self.piece(node)
        return self._source[piece.start : piece.end].decode()

    def between(self, left: ast.expr, right: ast.expr, sign: str) -> Piece | None:
        """Where an operator's sign, a pattern, stands between its operands; None at a comment."""
        start, end = self.piece(left).end, self.piece(right).start
        text = self._source[start:end].decode()
        found = re.search(sign, text)
        if found is None or "#" in text:
            return None
        before = start + len(text[: found.start()].encode())
        return Piece(before, before + len(found[0].encode()))
