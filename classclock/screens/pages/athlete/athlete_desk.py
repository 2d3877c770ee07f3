"""The coach's keys at an athlete's page: whose history is shown, and what the room may read."""

from collections.abc import Mapping

from msgspec import Struct, field

from classclock.records.result import Result
from classclock.report.athlete_page import AthletePage
from classclock.screens.controls.cursor import Cursor


class AthleteBook(Struct, frozen=True):
    page: AthletePage
    histories: Mapping[str, tuple[Result, ...]] = field(default_factory=dict)
    """By benchmark or lift, the earliest first."""


class AthleteDesk:
    """Attendance and modifications stay covered on a mirrored TV until they are asked for."""

    def __init__(self, *, mirrored: bool, benchmark: str = "") -> None:
        self.mirrored = mirrored
        self.covered = mirrored
        self.book: AthleteBook | None = None
        self._first = benchmark
        self._shown = Cursor()
        self.top = 0
        """The first line in view."""
        self.notice = "the book is being read"

    def know(self, book: AthleteBook) -> None:
        self.book, self.notice = book, ""
        first = self._first if self._first in book.histories else book.page.shown
        self._shown.follow(first, self.benchmarks)

    @property
    def benchmarks(self) -> tuple[str, ...]:
        return tuple(sorted(self.book.histories)) if self.book is not None else ()

    @property
    def benchmark(self) -> str:
        """Whose history is shown; empty where there is none."""
        return self._shown.lit(self.benchmarks) or ""

    @property
    def wholly_covered(self) -> bool:
        """Whether the bests are covered too: this athlete keeps them off the wall."""
        marks = self.book.page.athlete.marks if self.book is not None else ()
        return self.covered and "off the wall" in marks

    def sign(self, sign: str) -> bool:
        """One key; whether it leaves."""
        match sign:
            case "<escape>":
                return True
            case "<left>" | "<right>":
                self._shown.round(1 if sign == "<right>" else -1, len(self.benchmarks))
            case "<up>":
                self.top = max(0, self.top - 1)
            case "<down>":
                self.top += 1
            case "<f7>" if self.mirrored:
                self.covered = not self.covered
                open_now = "the TV shows this too: turn it away or mute it"
                self.notice = "" if self.covered else open_now
        return False
