"""Brackets and braces over several lines of TOML: which one is still open."""

import re

CLOSERS = {"[": "]", "{": "}"}


def _outside_quotes(line: str) -> str:
    return re.sub(r'"[^"]*"|\'[^\']*\'|#.*', "", line)


def depth_of(line: str) -> int:
    """Count the braces that are opened in a line and not closed in it."""
    bare = _outside_quotes(line)
    return bare.count("{") - bare.count("}")


def unclosed(lines: list[str], row: int) -> tuple[int, str] | None:
    """Find the line and the bracket that is open at the end of the row, the innermost first.

    A row that begins like a new key or heading counts as being outside.
    """
    starts_anew = re.match(r"\s*(\[\[|[A-Za-z0-9_.-]+\s*=)", lines[row]) is not None
    stack: list[tuple[int, str]] = []
    first = max(0, row - 200)
    for number in range(first, row if starts_anew else row + 1):
        line = lines[number]
        if re.match(r"\s*\[\[?[A-Za-z._-]+\]", line):
            stack.clear()
            continue
        for sign in _outside_quotes(line):
            if sign in CLOSERS:
                stack.append((number, sign))
            elif sign in "]}" and stack:
                stack.pop()
    if stack:
        return stack[-1]
    if starts_anew and depth_of(lines[row]) > 0:
        return row, "{"
    return None
