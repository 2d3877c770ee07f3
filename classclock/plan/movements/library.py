"""The movements that a club knows: what each one is, how it is done, what is easier."""

from collections.abc import Iterable
from functools import lru_cache, partial
from typing import Annotated, Literal

from pydantic import AfterValidator, BeforeValidator, Field

from classclock.plan.file_key import nearest
from classclock.plan.value_types import Flag, Lines, Strict, Text
from classclock.units.spelling import fold

LARGEST = 512 * 1024
"""Bytes of `movements.toml`: some thousand, and read within half a second whatever they are."""
Pattern = Literal["squat", "hinge", "push", "pull", "carry", "jump", "row/run", "trunk"]
CountedIn = Literal["reps", "metres", "calories", "seconds"]


def _pieces(written: dict[str, int]) -> dict[str, int]:
    pieces = {fold(name): count for name, count in written.items()}
    if len(pieces) < len(written) or "" in pieces:
        raise ValueError("each piece of equipment once, by its name")
    return pieces


def _option(value: object) -> object:
    return {"name": value} if isinstance(value, str) else value


Pieces = Annotated[
    dict[str, Annotated[int, Field(strict=True, ge=1, le=20)]], AfterValidator(_pieces)
]
"""What one person needs at once, by folded name: `{ dumbbells = 2 }` is `{"dumbbell": 2}`."""
Counts = Annotated[tuple[CountedIn, ...], Field(min_length=1, max_length=4)]


class EasierMovement(Strict):
    """An easier or safer version of a movement.

    What it leaves out is as in the movement of its own name, if the library has one, else as in
    the movement that it stands in for.
    """

    name: Text
    standard: Text | None = None
    counted_in: Counts | None = None
    equipment: Pieces | None = None
    keep_load: Flag = True
    """Whether the station's load holds: not for something lighter or bare."""


class Movement(Strict):
    name: Text
    aliases: tuple[Text, ...] = ()
    pattern: Pattern
    """The main one, where there are several."""
    counted_in: Counts = ("reps",)
    equipment: Pieces = Field(default_factory=dict)
    standard: Text | None = None
    points: Annotated[Lines, Field(max_length=3)] = ()
    """What to watch and to say, in a few words each."""
    options: tuple[Annotated[EasierMovement, BeforeValidator(_option)], ...] = ()
    """The easiest first."""
    caution: Lines = ()


class Library:
    """Movements, found by name or alias however they are spelled; the first of a name counts."""

    def __init__(self, movements: Iterable[Movement]) -> None:
        self.movements = tuple(movements)
        self._found: dict[str, Movement] = {}
        self._spelled: dict[str, str] = {}
        """Every name and alias as the library spells it."""
        for movement in self.movements:
            for name in (movement.name, *movement.aliases):
                self._found.setdefault(fold(name), movement)
                self._spelled.setdefault(fold(name), name)
        self._near = lru_cache(maxsize=256)(partial(nearest, known=tuple(self._spelled)))

    def find(self, written: str) -> Movement | None:
        return self._found.get(fold(written))

    def nearest(self, written: str) -> str | None:
        """The name or alias that was likely meant, if any is near enough."""
        near = self._near(fold(written))
        return self._spelled[near] if near else None

    def extended(self, more: "Library") -> "Library":
        """These movements, and those of the other library whose names aren't taken here."""
        new = (one for one in more.movements if fold(one.name) not in self._found)
        return Library((*self.movements, *new))

    def needs_of(self, written: str) -> dict[str, int]:
        """What one person needs for a movement; nothing for one that isn't known."""
        movement = self.find(written)
        return {} if movement is None else movement.equipment

    def needs_of_option(self, movement: str, option: str) -> dict[str, int]:
        """What one person needs for an option; as much as the movement where nothing else says."""
        meant = self.find(movement)
        listed = () if meant is None else meant.options
        for one in listed:
            if fold(one.name) == fold(option) and one.equipment is not None:
                return one.equipment
        named = self.find(option)
        return self.needs_of(movement) if named is None else named.equipment

    def counts_of_option(self, movement: Movement, option: EasierMovement) -> Counts:
        """What an option can be counted in."""
        named = self.find(option.name)
        return option.counted_in or (movement if named is None else named).counted_in
