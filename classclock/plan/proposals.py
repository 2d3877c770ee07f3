"""Movements to choose from while a name is being typed."""

from collections.abc import Iterator

from classclock.plan.movements import Library, Movement
from classclock.plan.spelling import plain_words


def propose(prefix: str, library: Library, limit: int = 8) -> tuple[str, ...]:
    """Name the movements that the typed letters may mean, the likeliest first.

    First those whose name begins so, then those with a later word that does, then by alias; within
    each as the library has them. Nothing typed proposes nothing.
    """
    typed = plain_words(prefix)
    if not typed or limit < 1:
        return ()
    ranked = sorted(_matches(typed, library), key=lambda match: match[0])
    return tuple(dict.fromkeys(name for _, name in ranked))[:limit]


def _matches(typed: str, library: Library) -> Iterator[tuple[int, str]]:
    for movement in library.movements:
        rank = _rank(typed, movement)
        if rank is not None:
            yield rank, movement.name


def _rank(typed: str, movement: Movement) -> int | None:
    name = plain_words(movement.name)
    if name.startswith(typed):
        return 0
    if f" {typed}" in name:
        return 1
    aliases = (f" {plain_words(alias)}" for alias in movement.aliases)
    return 2 if any(f" {typed}" in alias for alias in aliases) else None
