"""Survivors that somebody has looked at: why no test of the room needs to see them."""

import tomllib
from pathlib import Path

from msgspec import Struct, convert

from tests.mutants.finding import mutants
from tests.mutants.mutant import Mutant

_FILE = Path(__file__).with_name("judged.toml")


class Judged(Struct, frozen=True):
    """A line of a file before and after, and the reason."""

    file: str
    before: str
    why: str
    after: str = ""
    """Empty: whatever fault is put into the line."""


class _Page(Struct, frozen=True):
    mutant: tuple[Judged, ...] = ()


def judged() -> tuple[Judged, ...]:
    return convert(tomllib.loads(_FILE.read_text("utf-8")), _Page).mutant


def why(mutant: Mutant) -> str:
    """The reason why it may survive; nothing if nobody has judged it."""
    return next((one.why for one in judged() if _is_meant(one, mutant)), "")


def stale(tree: Path) -> list[Judged]:
    """What was judged of lines that the tree hasn't any more."""
    return [one for one in judged() if not any(_is_meant(one, found) for found in _of(one, tree))]


def _of(one: Judged, tree: Path) -> list[Mutant]:
    path = tree / one.file
    return mutants(one.file, path.read_bytes()) if path.exists() else []


def _is_meant(one: Judged, mutant: Mutant) -> bool:
    before, after = mutant.lines
    return (one.file, one.before, one.after or after) == (mutant.path, before, after)
