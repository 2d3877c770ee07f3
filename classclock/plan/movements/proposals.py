"""Movements to choose from while a name is being typed."""

from collections.abc import Iterator

from classclock.plan.movements.library import Library
from classclock.units.searching import BEGINS_A_WORD, distance
from classclock.units.spelling import plain_words


def propose(prefix: str, library: Library, limit: int = 8) -> tuple[str, ...]:
    """Name the movements that the typed letters may mean, the likeliest first.

    As `distance` has them by name and alias, but only where a word begins so: what is typed may
    be a name of one's own. Nothing typed proposes nothing.
    """
    typed = plain_words(prefix)
    if not typed:
        return ()
    ranked = sorted(_begun(typed, library), key=lambda one: one[0])
    return tuple(dict.fromkeys(name for _, name in ranked))[:limit]


def _begun(typed: str, library: Library) -> Iterator[tuple[int, str]]:
    for movement in library.movements:
        at = distance(typed, *map(plain_words, (movement.name, *movement.aliases)))
        if at is not None and at <= BEGINS_A_WORD:
            yield at, movement.name
