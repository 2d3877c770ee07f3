"""All mutants of a file.

Words, annotations, decorators and what only a type checker reads are left alone: a fault there
changes no answer.
"""

import ast
from collections.abc import Iterator

from tests.mutants.mutant import Mutant
from tests.mutants.operators import faults
from tests.mutants.source_text import SourceText

_NEVER_RUN = ("annotation", "returns", "decorator_list", "bases", "type_params")
_ONLY_TYPES = ("TYPE_CHECKING", "Literal", "cast")


def mutants(path: str, source: bytes) -> list[Mutant]:
    """Of a file at this path, in the order of its lines."""
    text = SourceText(source)
    found = {
        Mutant(path, source, piece, after, kind)
        for node in _looked_at(ast.parse(source))
        for kind, (piece, after) in faults(node, text)
    }
    return sorted(found, key=lambda one: (one.piece.start, one.piece.end, one.after))


def is_another_program(mutant: Mutant) -> bool:
    """Whether Python reads it, and as something else than before."""
    try:
        changed = ast.parse(mutant.applied)
    except SyntaxError:
        return False
    return ast.dump(changed) != ast.dump(ast.parse(mutant.source))


def _looked_at(node: ast.AST) -> Iterator[ast.AST]:
    yield node
    for name, value in ast.iter_fields(node):
        if name in _NEVER_RUN or (isinstance(node, ast.ClassDef) and name == "keywords"):
            continue
        for child in value if isinstance(value, list) else [value]:
            if isinstance(child, ast.AST) and not _means_nothing(child):
                yield from _looked_at(child)


def _means_nothing(node: ast.AST) -> bool:
    match node:
        case ast.JoinedStr() | ast.Expr(value=ast.Constant()):
            return True
        case ast.Expr(value=ast.Call(func=ast.Name(id="assert_never"))):
            return True
        case ast.keyword(arg="strict"):  # of zip: it says what holds anyway
            return True
        case ast.If(test=ast.Name(id=name)) | ast.Call(func=ast.Name(id=name)):
            return name in _ONLY_TYPES
        case ast.Subscript(value=ast.Name(id=name)):
            return name in _ONLY_TYPES
        case _:
            return False
