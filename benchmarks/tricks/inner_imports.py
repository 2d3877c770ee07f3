"""Imports that stand within functions, done as if they stood at the top of their files."""

import ast
from collections.abc import Iterator
from contextlib import suppress
from functools import partial
from importlib import import_module
from pathlib import Path

from benchmarks.tricks.after_import import after_import

Import = tuple[str, str]
"""A module, and a name taken from it, which may be a module too; empty where it is taken whole."""


def inner_imports(package: Path) -> dict[str, list[Import]]:
    """By the module that has them, those of all functions of a package."""
    found = {}
    for path in sorted(package.rglob("*.py")):
        module = ".".join(path.relative_to(package.parent).with_suffix("").parts)
        tree = ast.parse(path.read_text("utf-8"))
        functions = [one for one in ast.walk(tree) if isinstance(one, ast.FunctionDef)]
        inner = sorted({one for function in functions for one in _imports(function)})
        if inner:
            found[module.removesuffix(".__init__")] = inner
    return found


def _imports(function: ast.FunctionDef) -> Iterator[Import]:
    for node in ast.walk(function):
        if isinstance(node, ast.Import):
            yield from ((one.name, "") for one in node.names)
        elif isinstance(node, ast.ImportFrom) and node.module is not None:
            yield from ((node.module, one.name) for one in node.names)


def at_the_top(inner: dict[str, list[Import]]) -> None:
    """From now on each of these modules does its inner imports as it is loaded."""
    for module, imports in inner.items():
        after_import(module, partial(_do, imports))


def _do(imports: list[Import], _: object) -> None:
    for module, name in imports:
        with suppress(ImportError):  # an extra that isn't installed
            loaded = import_module(module)
            if name and not hasattr(loaded, name):
                import_module(f"{module}.{name}")
