"""Small screens made at random."""

from random import Random

from msgspec.structs import replace

from classclock.screens.canvas.layout.parts import (
    Area,
    Arrangement,
    Beside,
    Drawn,
    Grid,
    Lead,
    OneOf,
    Role,
    Stack,
    Written,
)

WORDS = ("7", "12", "7+12", "Jo", "Ilse", "row", "12 row", "5 kg a", "do it now", "a~b", "")
ROLES: tuple[Role, ...] = ("room", "room", "room", "caution", "coach", "detail", "detail")


class RandomScreen:
    """A part, a box and a group that may lead."""

    def __init__(self, seed: int) -> None:
        self._random = Random(seed)  # noqa: S311  no secret
        self._leaves = 0
        self._roles: dict[str, Role] = {}
        self.columns, self.rows = self._random.randint(6, 26), self._random.randint(2, 13)
        self.part: Arrangement = Stack((self._part(2), self._part(1)))
        rooms = [group for group, role in self._roles.items() if role == "room"]
        self.lead = None
        if rooms and self._random.random() < 0.3:
            first, *others = self._random.sample(rooms, len(rooms))
            self.lead = Lead(first, self._random.choice((1.0, 1.5, 2.0)), tuple(others[:1]))

    def _part(self, depth: int) -> Arrangement:
        kinds = ("leaf", "stack", "beside", "table", "ways", "area")
        kind = self._random.choice(kinds if depth else kinds[:1])
        match kind:
            case "stack":
                return Stack(self._parts(depth), gap=self._random.choice((0, 0, 1)), air=1)
            case "beside":
                return Beside(self._parts(depth), gap=self._random.choice((0, 1)))
            case "ways":
                return OneOf(self._parts(depth))
            case "area":
                self._leaves += 1
                return Area(("area", self._leaves), self._part(depth - 1))
            case "table":
                return self._table()
            case _:
                return self._leaf("abcd")

    def _parts(self, depth: int) -> tuple[Arrangement, ...]:
        return tuple(self._part(depth - 1) for _ in range(self._random.randint(1, 3)))

    def _leaf(self, groups: str) -> Written | Drawn:
        self._leaves += 1
        if self._random.random() < 0.15:
            group = self._random.choice("xy")
            wide, high = self._random.randint(1, 5), self._random.randint(1, 3)
            role: Role = self._roles.setdefault(group, self._random.choice(("detail", "room")))
            return Drawn(
                (group, self._leaves), group, (wide, high), (wide + 4, high + 2), role, ord(group)
            )
        group = self._random.choice(groups)
        return Written(
            (group, self._leaves),
            self._random.choice(WORDS),
            group,
            self._roles.setdefault(group, self._random.choice(ROLES)),
            matters=ord(group),
            breaks=self._random.random() < 0.5,
            most=3 if group == "d" else 9,
        )

    def _table(self) -> Grid:
        columns = [self._leaf(group) for group in self._random.sample("abcd", 2)]
        count = self._random.randint(1, 4)
        rows = tuple(tuple(self._like(cell) for cell in columns) for _ in range(count))
        under: tuple[Arrangement, ...] = ()
        if self._random.random() < 0.3:
            below = self._leaf("cd")
            under = tuple(self._like(below) for _ in range(count))
        return Grid(
            rows,
            under,
            across=self._random.choice(((1,), (1, 2), (2, 1), (1, 2, 3))),
            gap=1,
            between=1,
            paged=self._random.random() < 0.3,
        )

    def _like(self, leaf: Written | Drawn) -> Written | Drawn:
        self._leaves += 1
        name = leaf.group, self._leaves
        if isinstance(leaf, Drawn):
            return replace(leaf, name=name)
        return replace(leaf, name=name, words=self._random.choice(WORDS))
