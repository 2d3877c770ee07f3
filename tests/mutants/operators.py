"""The small faults that are put into a program, of the kinds that people make.

Each looks at a node of the syntax tree and says what may stand in the place of a piece of text.
"""

import ast
from collections.abc import Callable, Iterator
from itertools import pairwise
from typing import Any

from tests.mutants.source_text import Piece, SourceText

Fault = tuple[Piece, str]

_COMPARED: dict[type[ast.cmpop], tuple[str, ...]] = {
    ast.Lt: ("<=", ">"),
    ast.LtE: ("<", "&", ">="),  # & where a subset is asked for
    ast.Gt: (">=", "<"),
    ast.GtE: (">", "<="),
    ast.Eq: ("!=",),
    ast.NotEq: ("==",),
    ast.Is: ("is not",),
    ast.IsNot: ("is",),
    ast.In: ("not in",),
    ast.NotIn: ("in",),
}
_RECKONED: dict[type[ast.operator], str] = {
    ast.Add: "-",
    ast.Sub: "+",
    ast.Mult: "/",
    ast.Div: "*",
    ast.FloorDiv: "/",
    ast.Mod: "*",
    ast.BitOr: "&",
    ast.BitAnd: "|",
}
_OPPOSITES = (
    ("max", "min"),
    ("any", "all"),
    ("floor", "ceil"),
    ("ROUND_FLOOR", "ROUND_CEILING"),
    ("startswith", "endswith"),
)
_TURNED_ROUND = {
    one: another for pair in _OPPOSITES for one, another in (pair, tuple(reversed(pair)))
}


def _comparison(node: ast.Compare, text: SourceText) -> Iterator[Fault]:
    operands = pairwise([node.left, *node.comparators])
    for (left, right), sign in zip(operands, node.ops, strict=True):
        place = text.between(left, right, r"not\s+in|is\s+not|in|is|[<>=!]+")
        if place:
            yield from ((place, after) for after in _COMPARED[type(sign)])


def _boolean(node: ast.BoolOp, text: SourceText) -> Iterator[Fault]:
    for left, right in pairwise(node.values):
        place = text.between(left, right, r"\b(and|or)\b")
        if place:
            yield place, "or" if isinstance(node.op, ast.And) else "and"


def _arithmetic(node: ast.BinOp | ast.AugAssign, text: SourceText) -> Iterator[Fault]:
    left, right = (
        (node.left, node.right) if isinstance(node, ast.BinOp) else (node.target, node.value)
    )
    place = text.between(left, right, r"//|[-+*/%|&]")
    after = _RECKONED.get(type(node.op))
    if place and after:
        yield place, after


def _sign(node: ast.UnaryOp, text: SourceText) -> Iterator[Fault]:
    if isinstance(node.op, ast.Not | ast.USub):
        yield text.piece(node), text.of(node.operand)


def _constant(node: ast.Constant, text: SourceText) -> Iterator[Fault]:
    value = node.value
    if isinstance(value, bool):
        yield text.piece(node), str(not value)
    elif isinstance(value, int):
        yield text.piece(node), str(value + 1)
        yield text.piece(node), str(value - 1)


def _slice_end(node: ast.Slice, text: SourceText) -> Iterator[Fault]:
    for bound in filter(None, (node.lower, node.upper)):
        yield text.piece(bound), ""


def _condition(node: ast.If | ast.IfExp | ast.While, text: SourceText) -> Iterator[Fault]:
    yield text.piece(node.test), f"not ({text.of(node.test)})"


def _filter(node: ast.comprehension, text: SourceText) -> Iterator[Fault]:
    for test in node.ifs:
        yield text.piece(test), "True"


def _return_value(node: ast.Return, text: SourceText) -> Iterator[Fault]:
    if node.value is not None:
        yield text.piece(node.value), "None"


def _left_out(node: ast.stmt, text: SourceText) -> Iterator[Fault]:
    yield text.piece(node), "pass"


def _turned_round(node: ast.Name | ast.Attribute, text: SourceText) -> Iterator[Fault]:
    name = node.id if isinstance(node, ast.Name) else node.attr
    if name in _TURNED_ROUND:
        end = text.piece(node).end
        yield Piece(end - len(name), end), _TURNED_ROUND[name]


_Operator = Callable[[Any, SourceText], Iterator[Fault]]
OPERATORS: dict[str, tuple[_Operator, tuple[type[ast.AST], ...]]] = {
    "comparison": (_comparison, (ast.Compare,)),
    "boolean": (_boolean, (ast.BoolOp,)),
    "arithmetic": (_arithmetic, (ast.BinOp, ast.AugAssign)),
    "sign left out": (_sign, (ast.UnaryOp,)),
    "constant": (_constant, (ast.Constant,)),
    "slice end": (_slice_end, (ast.Slice,)),
    "condition": (_condition, (ast.If, ast.IfExp, ast.While)),
    "filter": (_filter, (ast.comprehension,)),
    "return value": (_return_value, (ast.Return,)),
    "statement left out": (
        _left_out,
        (ast.Expr, ast.AugAssign, ast.Raise, ast.Continue, ast.Break),
    ),
    "turned round": (_turned_round, (ast.Name, ast.Attribute)),
}
"""By kind: what makes the faults, and of which nodes."""


def faults(node: ast.AST, text: SourceText) -> Iterator[tuple[str, Fault]]:
    """Every fault that may be made of a node, with its kind."""
    for kind, (operator, nodes) in OPERATORS.items():
        if isinstance(node, nodes):
            yield from ((kind, fault) for fault in operator(node, text))
