"""What the program does just now, for the coach and for others who wait, and how far it is.

Whoever does something long goes through its parts by `steps`; whoever shows that listens.
"""

from collections.abc import Callable, Iterator, Sequence
from contextlib import contextmanager
from typing import TypeVar

from msgspec import Struct

Part = TypeVar("Part")
ProgressListener = Callable[[str, int, int], None]
"""Told in words what is done, how many parts of it are done, and of how many."""


class UnderWay(Struct):
    """One for the whole program: it does one command."""

    command: str = ""
    """As it is typed behind `classclock`, without what it is about: names are nobody's business."""
    since: str = ""
    """When it was begun, RFC 3339."""
    listener: ProgressListener | None = None


NOW = UnderWay()


def begin(command: str, since: str) -> None:
    """From here on the program does this command."""
    NOW.command, NOW.since = command, since


@contextmanager
def listened_to(listener: ProgressListener) -> Iterator[None]:
    """Tell this listener of all that is done meanwhile."""
    before, NOW.listener = NOW.listener, listener
    try:
        yield
    finally:
        NOW.listener = before


def told(words: str, done: int, of: int) -> None:
    """Say how far something is."""
    if NOW.listener is not None:
        NOW.listener(words, done, of)


def steps(words: str, parts: Sequence[Part]) -> Iterator[Part]:
    """These parts one by one; how many are done is told before each and after the last."""
    for number, part in enumerate(parts):
        told(words, number, len(parts))
        yield part
    told(words, len(parts), len(parts))
