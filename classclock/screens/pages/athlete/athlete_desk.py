"""The coach's keys at an athlete's page: whose history is shown, and what the room may read."""

from collections.abc import Mapping

from msgspec import Struct, field

from classclock.records.result import Result
from classclock.report.athlete_page import AthletePage


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
        self.benchmark = benchmark
        self.top = 0
        """The first line in view."""
        self.notice = "the book is being read"

    def know(self, book: AthleteBook) -> None:
        self.book, self.notice = book, ""
        if self.benchmark not in book.histories:
            self.benchmark = book.page.shown

    @property
    def benchmarks(self) -> tuple[str, ...]:
        return tuple(sorted(self.book.histories)) if self.book is not None else ()

    @property
    def wholly_covered(self) -> bool:
        """Whether the bests are covered too: this athlete keeps them off the wall."""
        marks = self.book.page.athlete.marks if self.book is not None else ()
        return self.covered and "off the wall" in marks

    def sign(self, sign: str) -> bool:
        """One key; whether it leaves."""
        known = self.benchmarks
        match sign:
            case "<escape>":
                return True
            case "<left>" | "<right>" if known:
                at = known.index(self.benchmark) if self.benchmark in known else 0
                self.benchmark = known[(at + (1 if sign == "<right>" else -1)) % len(known)]
            case "<up>":
                self.top = max(0, self.top - 1)
            case "<down>":
                self.top += 1
            case "<f7>" if self.mirrored:
                self.covered = not self.covered
                open_now = "the TV shows this too: turn it away or mute it"
                self.notice = "" if self.covered else open_now
            case _:
                pass
        return False
