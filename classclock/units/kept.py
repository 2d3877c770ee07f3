"""What was worked out is kept for when it is asked for again, by one rule of forgetting.

`functools.lru_cache` with a bound keeps it, and forgets what was asked for least lately; a bound of
one keeps the last. Arguments are compared by what they say. A record, a tally or a plan is large,
and never changed, only replaced: it goes in as `Same`. `functools.cache`, which forgets nothing, is
for what takes no arguments.
"""

from typing import Generic, TypeVar

Thing_co = TypeVar("Thing_co", covariant=True)


class Same(Generic[Thing_co]):
    """A thing as an argument that equals the very same thing only.

    It holds the thing, so that no other one can take its place in memory while this is kept.
    """

    __slots__ = ("it",)

    def __init__(self, it: Thing_co) -> None:
        self.it = it

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Same) and other.it is self.it

    def __hash__(self) -> int:
        return id(self.it)
