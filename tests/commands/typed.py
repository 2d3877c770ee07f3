"""What comes of a command line that is typed."""

from collections.abc import Callable
from typing import NamedTuple


class Said(NamedTuple):
    status: int
    out: str
    err: str


Typed = Callable[..., Said]
"""Types a command line, given word by word."""
CommandSays = Callable[..., str]
"""The same, of one that must succeed: what it prints."""
