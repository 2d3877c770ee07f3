"""The movements that come with classclock, as a library."""

import functools

from classclock.plan.movements.library import Library, Movement
from classclock.plan.movements.starter_movements import STARTER


@functools.cache
def starter_library() -> Library:
    """Some sixty common movements."""
    return Library(tuple(map(Movement.model_validate, STARTER)))
