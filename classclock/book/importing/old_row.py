"""One score of an old sheet as it was read, and what may be wrong with a row."""

from msgspec import Struct

from classclock.book.importing.old_scores import OldScore
from classclock.book.importing.questions import WaitingError


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


class RowWaitsError(WaitingError):
    """A row waits for an answer, though it is known what it is a score of."""

    def __init__(self, benchmark: str, row: OldRow | None = None) -> None:
        super().__init__()
        self.benchmark, self.row = benchmark, row


class FaultError(Exception):
    """What is wrong with a row, and what to write instead."""

    def __init__(self, what: str, instead: str) -> None:
        super().__init__(what)
        self.what, self.instead = what, instead
