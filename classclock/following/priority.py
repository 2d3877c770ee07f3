"""How much of the processor whoever only looks on asks for: less than the class."""

import os

_LESS = 10


def give_way() -> None:
    """Let every other process go first, where the system knows that."""
    nice = getattr(os, "nice", None)
    if nice is not None:
        nice(_LESS)
