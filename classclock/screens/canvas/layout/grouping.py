"""The groups of a screen's parts: what has one size, and the sizes that all of it comes in."""

from collections.abc import Collection, Iterable
from functools import lru_cache

from msgspec.structs import replace

from classclock.screens.canvas.layout.measure import Measure
from classclock.screens.canvas.layout.narrowing import Leading
from classclock.screens.canvas.layout.parts import Drawn, Lead, Written
from classclock.screens.canvas.layout.search import SizeGroup

Limits = tuple[tuple[str, int], ...]
"""Groups, each with the largest size that it may have."""
Leaves = Collection[Written | Drawn]
"""All of a part."""


def names_of(parts: Iterable[Leaves]) -> tuple[str, ...]:
    """The groups that any of these has."""
    return tuple(dict.fromkeys([leaf.group for every in parts for leaf in every]))


def groups_of(
    leaves: Leaves, names: Iterable[str], rows: int, measure: Measure
) -> tuple[SizeGroup, ...]:
    """These groups, as a part has them; one that it lacks is a detail that never stands.

    So is one without a word, which takes no room: else it would be the smallest that is read.
    """
    members: dict[str, list[Written | Drawn]] = {}
    for leaf in leaves:
        members.setdefault(leaf.group, []).append(leaf)
    return tuple(
        _group(name, members[name], rows, measure) if name in members else _lacking(name)
        for name in names
    )


def _lacking(name: str) -> SizeGroup:
    return SizeGroup(name, (), "detail", 0)


def _group(name: str, of: list[Written | Drawn], rows: int, measure: Measure) -> SizeGroup:
    if len({(one.role, type(one)) for one in of}) > 1:
        raise ValueError(f"{name} is one group: give its parts one role")
    matters = max(one.matters for one in of)
    texts = [one for one in of if isinstance(one, Written)]
    if not texts:
        return SizeGroup(name, (1,), of[0].role, matters, drawn=True)
    words = tuple(dict.fromkeys([one.words for one in texts if one.words.strip(" ")]))
    if not words:
        return _lacking(name)
    common = _common(words, rows, measure)
    least, most = max(one.least for one in texts), min(one.most for one in texts)
    within = tuple(size for size in common if least <= size <= most)
    return SizeGroup(name, within or common[:1], of[0].role, matters)


@lru_cache(maxsize=128)
def _common(every: tuple[str, ...], rows: int, measure: Measure) -> tuple[int, ...]:
    """The sizes that all words come in; words that come in one alone don't hold back the others."""
    each = {sizes for words in every if len(sizes := measure.sizes(words, rows)) > 1}
    return tuple(sorted(set.intersection(*map(set, each)))) if each else (1,)


def limited(groups: Iterable[SizeGroup], limits: Limits) -> tuple[SizeGroup, ...]:
    """With no letters larger than these; what has none so small has its smallest."""
    most = dict(limits)
    return tuple(
        replace(
            one, sizes=tuple(size for size in one.sizes if size <= most[one.name]) or one.sizes[:1]
        )
        if one.name in most
        else one
        for one in groups
    )


def leading(lead: Lead | None, groups: tuple[SizeGroup, ...]) -> Leading | None:
    numbers = {group.name: number for number, group in enumerate(groups)}
    if lead is None or lead.group not in numbers:
        return None
    number = numbers[lead.group]
    if not groups[number].sizes:
        return None
    over = frozenset(numbers[name] for name in lead.over if name in numbers)
    return Leading(number, groups[number].sizes, lead.times, over)
