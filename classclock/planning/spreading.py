"""A staggered start: how many lanes begin at which station, so that the equipment goes round.

A model: all lanes move on together. After each move the lanes that began at one station are all at
the next, and what they hold there must be there. People drift, some are quicker; so one of each
piece is kept to spare where the counts allow it, and the coach is told where they don't.
"""

from collections import Counter
from collections.abc import Sequence

from classclock.planning.equipment import Inventory, Need, most_at_once

_MOST_TRIES = 3_000
"""Numbers tried at a station before it is given up; a class's few stations take a few dozen."""

Spread = tuple[int, ...]
"""How many lanes begin at each station."""


def spread(needs: Sequence[Need], lanes: int, inventory: Inventory) -> Spread | None:
    """Spread the lanes over the stations as evenly as the equipment allows.

    Where each station has pieces of its own that is `ceil(lanes / stations)` at the fullest. One
    of each piece is left to spare where that is possible. None: there is no such start.
    """
    limits = {piece: inventory[piece] for need in needs for piece in need if piece in inventory}
    found = _arrange(needs, lanes, limits)
    if found is None:
        return None
    spares = _arrange(needs, lanes, {piece: there - 1 for piece, there in limits.items()})
    if spares is not None:
        return spares
    for piece, there in limits.items():
        spared = {**limits, piece: there - 1}
        better = _arrange(needs, lanes, spared)
        if better is not None:
            found, limits = better, spared
    return found


def most_lanes(needs: Sequence[Need], inventory: Inventory) -> int | None:
    """How many lanes the equipment could carry at best, held by somebody at every moment.

    No start does better, and not every one does as well. None: nothing that was counted is needed.
    """
    whole_round = Counter[str]()
    for need in needs:
        whole_round.update(need)
    return min(
        (
            inventory[one] * len(needs) // many
            for one, many in whole_round.items()
            if one in inventory
        ),
        default=None,
    )


def peaks(needs: Sequence[Need], starts: Spread) -> Need:
    """The most of each piece that is needed at once while the lanes go round."""
    moments: list[dict[str, int]] = []
    for moved in range(len(needs)):
        held: dict[str, int] = {}
        for station, lanes in enumerate(starts):
            for piece, count in needs[(station + moved) % len(needs)].items():
                held[piece] = held.get(piece, 0) + count * lanes
        moments.append(held)
    return most_at_once(moments)


def _arrange(needs: Sequence[Need], lanes: int, limits: Inventory) -> Spread | None:
    """Find a spread that keeps within the limits, the evenest first."""
    most = most_lanes(needs, limits)
    if most is not None and lanes > most:
        return None
    search = _Search(needs, limits)
    return tuple(search.begun) if search.place(lanes) else None


class _Search:
    """Goes through the stations one by one; what overfills any moment is taken back."""

    def __init__(self, needs: Sequence[Need], limits: Inventory) -> None:
        self._needs = needs
        self._limits = limits
        self._held = [dict.fromkeys(limits, 0) for _ in needs]
        self._tries = 0
        self.begun: list[int] = []

    def place(self, lanes: int) -> bool:
        """Place so many lanes at the stations that are left; whether that worked."""
        left = len(self._needs) - len(self.begun)
        if left == 0:
            return lanes == 0
        for number in sorted(range(lanes + 1), key=lambda many: abs(many * left - lanes)):
            self._tries += 1
            if self._tries > _MOST_TRIES:
                return False
            if self._add(number):
                self.begun.append(number)
                if self.place(lanes - number):
                    return True
                self.begun.pop()
            self._add(-number)
        return False

    def _add(self, number: int) -> bool:
        fits = True
        station = len(self.begun)
        for moved, held in enumerate(self._held):
            need = self._needs[(station + moved) % len(self._needs)]
            for piece, most in self._limits.items():
                held[piece] += number * need.get(piece, 0)
                fits = fits and held[piece] <= most
        return fits
