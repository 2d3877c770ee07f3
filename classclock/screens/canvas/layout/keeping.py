"""What was worked out of a node is kept in it, by the sizes of its own groups alone."""

from collections.abc import Callable
from functools import cached_property
from operator import itemgetter
from typing import Any, TypeVar

from classclock.screens.canvas.layout.nodes import Sizes


class Keeping:
    """What keeps something, made when it is first asked: many cells of a table never are."""

    groups: frozenset[int]
    """Whose sizes it depends on."""

    @cached_property
    def own(self) -> Callable[[Sizes], object]:
        """The sizes of its groups."""
        numbers = sorted(self.groups)
        return itemgetter(*numbers) if numbers else len  # alike for all sizes

    @cached_property
    def kept(self) -> dict[object, Any]:
        """What was worked out, by what and of what."""
        return {}


_Keeper = TypeVar("_Keeper", bound=Keeping)
_Found = TypeVar("_Found")


def kept_sizes(
    work_out: Callable[[_Keeper, Sizes], _Found],
) -> Callable[[_Keeper, Sizes], _Found]:
    """What is worked out for sizes, once for those of the groups that it depends on."""

    def found(keeper: _Keeper, sizes: Sizes, /) -> _Found:
        at = work_out, keeper.own(sizes)
        known: _Found | None = keeper.kept.get(at)
        if known is None:
            known = keeper.kept[at] = work_out(keeper, sizes)
        return known

    return found


def kept_length(
    work_out: Callable[[_Keeper, int, Sizes], int],
) -> Callable[[_Keeper, int, Sizes], int]:
    """What is worked out for a length and such sizes."""

    def found(keeper: _Keeper, length: int, sizes: Sizes, /) -> int:
        at = work_out, length, keeper.own(sizes)
        known: int | None = keeper.kept.get(at)
        if known is None:
            known = keeper.kept[at] = work_out(keeper, length, sizes)
        return known

    return found
