"""What a model says of its keys: the text that stands under each in the program."""

import ast
import inspect
from collections.abc import Iterator
from functools import cache
from itertools import pairwise
from textwrap import dedent

from pydantic import BaseModel

from classclock.clock.cues import RULES
from classclock.plan.formats.cue_switches import Cues
from classclock.plan.keys import KEYS


def meaning(table: type[BaseModel], key: str) -> str:
    """What the key is for, as a sentence.

    Raises:
        LookupError: nothing in the program says it.
    """
    for one in table.__mro__:
        if words := _texts(one).get(key):
            return words
    words = KEYS[key].hint if key in KEYS else ""
    if not words:
        raise LookupError(f"{table.__name__}.{key} says nothing: write it under the field")
    return _sentence(words)


@cache
def _texts(table: type) -> dict[str, str]:
    """By field, the text under it; of the cues, which have no source, what their rules say."""
    if table is Cues:
        return {rule.switch: _sentence(rule.words) for rule in RULES}
    if not issubclass(table, BaseModel) or table is BaseModel:
        return {}
    return dict(_under_fields(table))


def _under_fields(table: type[BaseModel]) -> Iterator[tuple[str, str]]:
    try:
        source = inspect.getsource(table)
    except OSError:
        return  # made at run time
    (made,) = ast.parse(dedent(source)).body
    if not isinstance(made, ast.ClassDef):
        raise TypeError(f"{table.__name__} is no class of its own")
    for field, under in pairwise(made.body):
        if not isinstance(field, ast.AnnAssign) or not isinstance(field.target, ast.Name):
            continue
        text = under.value if isinstance(under, ast.Expr) else None
        if isinstance(text, ast.Constant) and isinstance(text.value, str):
            yield field.target.id, " ".join(text.value.split())


def _sentence(words: str) -> str:
    return f"{words[0].upper()}{words[1:].removesuffix('.')}."
