"""The pages of what was laid out, each placed when it is first looked at."""

from collections.abc import Iterator

from classclock.screens.canvas.layout.narrowing import SizesFound
from classclock.screens.canvas.layout.nodes import Box, Spot, Spots


class Pages:
    """Spots by name, a page each; those that aren't paged are on every page.

    Of ways that are tried most are never shown, and of one that is the first page alone at first.
    """

    def __init__(self, found: SizesFound, box: Box, count: int) -> None:
        self._to_place: SizesFound | None = found
        self._box = box
        self._placed: list[Spots | None] = [None] * count

    def __len__(self) -> int:
        return len(self._placed)

    def __getitem__(self, page: int) -> Spots:
        spots = self._placed[page]
        if spots is None and self._to_place is not None:
            spots = self._placed[page] = _spots(self._to_place, self._box, page % len(self))
            if None not in self._placed:
                self._to_place = None  # it is much larger than the spots are
        return spots or {}

    def __eq__(self, other: object) -> bool:
        return isinstance(other, Pages) and list(self) == list(other)

    __hash__ = None  # type: ignore[assignment]  # as of all that can be compared but holds dicts

    def __iter__(self) -> Iterator[Spots]:
        return map(self.__getitem__, range(len(self)))


def _spots(found: SizesFound, box: Box, page: int) -> Spots:
    spots: Spots = {}
    found.ways[0].node.place(box, found.sizes, spots, page)
    return {name: clipped for name, spot in spots.items() if (clipped := _within(spot, box))}


def _within(spot: Spot, box: Box) -> Spot | None:
    """As much of it as lies in the box, if it was cut."""
    x, y, wide, high = spot.box
    if 0 < wide <= box.width - x and 0 < high <= box.height - y:
        return spot
    wide, high = min(wide, box.width - x), min(high, box.height - y)
    return spot._replace(box=Box(x, y, wide, high)) if wide > 0 and high > 0 else None
