"""One score of an old sheet as it was read, and what may be wrong with a row."""

from msgspec import Struct

from classclock.book.importing.old_scores import OldScore


class OldRow(Struct, frozen=True):
    """One score from the file. `line` is the row's last line in it."""

    line: int
    name: str
    benchmark: str
    written: str
    """The benchmark with the sheet's capitals."""
    score: OldScore
    day: str
    modification: str
    loads: str
    work: str


class FaultError(Exception):
    """What is wrong with a row, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead
