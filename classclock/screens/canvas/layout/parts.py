"""What a screen shows, and the ways in which it may stand: plain values.

A part stands where its own parts let it: texts and drawn things are the leaves.
"""

from typing import Literal

from msgspec import Struct

Name = str | tuple[str | int, ...]
"""By what a screen finds a part's place again; each has its own."""
Role = Literal["room", "caution", "coach", "detail"]
"""Read from the back; the same, never left out; read at the laptop; may go."""
Across = Literal["left", "middle", "right"]
MOST = 1_000_000


class Written(Struct, frozen=True):
    """Words of one size. Those of one `group` have one size, all lanes' names for instance."""

    name: Name
    words: str
    """What room is kept for: of what changes the widest that it may become. Empty takes no room."""
    group: str
    role: Role = "room"
    matters: int = 0
    """What matters least goes first. The most of its group counts."""
    breaks: bool = False
    """Between words, never between a number and its unit."""
    across: Across = "left"
    least: int = 1
    most: int = MOST
    """Sizes between which it stays."""


class Drawn(Struct, frozen=True):
    """What is no text: a ribbon, the picture of plates. Those of one `group` are there or not."""

    name: Name
    group: str
    least: tuple[int, int]
    """Columns and rows without which it isn't shown."""
    wished: tuple[int, int]
    """What it takes of the room that is left."""
    role: Role = "detail"
    matters: int = 0


class Stack(Struct, frozen=True):
    """One over the other, each as wide as the box."""

    parts: "tuple[Arrangement, ...]"
    gap: int = 0
    """Rows between two of them."""
    air: int = 0
    """Rows more between two of them, where there are any left."""
    down: Literal["top", "middle"] = "top"


class Beside(Struct, frozen=True):
    """Side by side, each as high as the box. What breaks is as narrow as the others need it."""

    parts: "tuple[Arrangement, ...]"
    gap: int = 2
    """Columns between two of them."""


class Area(Struct, frozen=True):
    """A part of which the whole room is asked for: it has a spot by its own name.

    It takes all columns that are left. What changes within is laid out in it by itself.
    """

    name: Name
    part: "Arrangement"


class Grid(Struct, frozen=True):
    """Rows of cells, in columns that share a width. All rows are equally high.

    With `across` (1, 2) they stand in one column of rows, or in two: down the first, then down the
    next. Where a text in it breaks all rows are as high as that takes.
    """

    rows: "tuple[tuple[Arrangement, ...], ...]"
    under: "tuple[Arrangement, ...]" = ()
    """For each row what stands below its cells, as wide as they are together or wider."""
    across: tuple[int, ...] = (1,)
    gap: int = 2
    between: int = 4
    """Columns between two columns of rows."""
    name: str = ""
    """Each row's own spot is found by it, and the row's number."""
    paged: bool = False
    """Whether its rows may be parted over several pages."""


class OneOf(Struct, frozen=True):
    """One of these, the first that is as good as any. Not within a table.

    One that lacks a group is no way in which that group could be there.
    """

    parts: "tuple[Arrangement, ...]"


Arrangement = Written | Drawn | Stack | Beside | Area | Grid | OneOf


class Lead(Struct, frozen=True):
    """A group that is the largest of all, and so many times as large as some: the clock."""

    group: str
    times: float = 1.5
    over: tuple[str, ...] = ()
