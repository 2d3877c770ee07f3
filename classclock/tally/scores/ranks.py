"""Standard competition ranking: 1, 2, 2, 4."""

from collections.abc import Sequence
from typing import Any, Protocol, TypeVar


class Ordered(Protocol):
    """Anything that can be put in order: a number, or a tuple whose later items break ties."""

    def __lt__(self, other: Any, /) -> bool: ...


Key = TypeVar("Key", bound=Ordered)


def ranks(keys: Sequence[Key | None]) -> tuple[int | None, ...]:
    """The rank of each key, the lowest being first; equal keys share one. None has no rank."""
    ordered = sorted(key for key in keys if key is not None)
    first: dict[Key, int] = {}
    for place, key in enumerate(ordered, start=1):
        first.setdefault(key, place)
    return tuple(None if key is None else first[key] for key in keys)


def ranks_apart(keys: Sequence[Key | None], groups: Sequence[bool]) -> tuple[int | None, ...]:
    """Each group ranked within itself."""
    mine = ranks([key if not group else None for key, group in zip(keys, groups, strict=True)])
    others = ranks([key if group else None for key, group in zip(keys, groups, strict=True)])
    return tuple(
        other if group else own for own, other, group in zip(mine, others, groups, strict=True)
    )
