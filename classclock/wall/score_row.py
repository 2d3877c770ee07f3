"""One lane's row in a table of scores, in words."""

from msgspec import Struct

from classclock.wall.hue import Hue


class ScoreRow(Struct, frozen=True):
    """One row. Empty texts take no room."""

    name: str
    score: str
    key: str = ""
    rank: str = ""
    asked: str = ""
    """What is to be asked of it: large where there is room."""
    notes: tuple[str, ...] = ()
    signs: str = ""
    """What stands for both where there is no room for words."""
    best: str = ""
    """What is to be cheered beside the athlete's earlier scores."""
    best_hue: Hue = "first"
    last: str = ""
    """What the same athlete had the last time."""
    selected: bool = False

    @property
    def new_best(self) -> bool:
        return bool(self.best) and self.best_hue == "ahead"
