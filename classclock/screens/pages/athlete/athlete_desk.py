"""The coach's keys at an athlete's page: whose history is shown, and what the room may read."""

from collections.abc import Mapping

from msgspec import Struct, field

from classclock.book.goals.standing import GoalNow
from classclock.records.result import Result
from classclock.report.athlete_page import AthletePage
from classclock.report.goal_words import typed_words
from classclock.screens.controls.cursor import Cursor
from classclock.screens.pages.athlete.goal_entry import GoalEntry, GoalTyped


class AthleteBook(Struct, frozen=True):
    page: AthletePage
    histories: Mapping[str, tuple[Result, ...]] = field(default_factory=dict)
    """By benchmark or lift, the earliest first."""


class GoalKept(Struct, frozen=True):
    """What became of a goal that was typed."""

    words: str = ""
    """What is said of it."""
    question: str = ""
    """What is asked before it is set."""
    book: AthleteBook | None = None
    """The page as it is now, where it was set or ended."""


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
        self.entry: GoalEntry | None = None
        """A goal that is being typed."""
        self.typed: GoalTyped | None = None
        """One that was typed, to be kept."""

    def know(self, book: AthleteBook) -> None:
        shown = self.benchmark or self._first
        self.book, self.notice = book, ""
        first = shown if shown in book.histories else book.page.shown
        self._shown.follow(first, self.benchmarks)

    @property
    def name(self) -> str:
        """Whose page it is."""
        return self.book.page.athlete.name if self.book is not None else ""

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

    @property
    def said(self) -> str:
        """What stands at the foot: what is typed or asked, else a notice."""
        return self.entry.words(self.notice) if self.entry else self.notice

    @property
    def goal(self) -> GoalNow | None:
        """What they work towards on the benchmark whose history is shown."""
        return self.book.page.goal_on(self.benchmark) if self.book is not None else None

    def sign(self, sign: str) -> bool:
        """One key; whether it leaves."""
        if self.entry is not None:
            self._type(self.entry, sign)
            return False
        match sign:
            case "g" if self.benchmark:
                self._open_entry()
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

    def _open_entry(self) -> None:
        if self.wholly_covered:
            self.notice = "F7 first: they keep what they work towards off the wall"
            return
        before = "" if self.goal is None else typed_words(self.goal.stands.goal)
        self.entry, self.notice = GoalEntry(self.benchmark, before), ""

    def _type(self, entry: GoalEntry, sign: str) -> None:
        meant, self.notice = entry.sign(sign), ""
        if meant == "left":
            self.entry = None
        elif meant is not None:
            self.typed = meant

    def take_typed(self) -> GoalTyped | None:
        """What is to be kept, once."""
        typed, self.typed = self.typed, None
        return typed

    def kept(self, answer: GoalKept) -> None:
        """What became of it: it is in the book, is asked about, or can't be meant."""
        if answer.question and self.entry is not None:
            self.entry.ask(answer.question)
        elif answer.book is None:
            self.notice = answer.words
        else:
            self.entry = None
            self.know(answer.book)
            self.notice = answer.words
