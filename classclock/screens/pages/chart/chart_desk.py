"""The coach's keys at the chart: which athlete and benchmark are highlighted, in what order."""

from collections.abc import Collection, Mapping, Sequence

from msgspec import Struct, field

from classclock.book.tables.queries import Athlete, Best
from classclock.records.bests import long_day
from classclock.report.chart.chart import Cell, Chart, ChartGoals, ChartRow, chart
from classclock.report.chart.chart_words import (
    also_words,
    best_words,
    estimate_words,
    order_words,
    terms_words,
)
from classclock.report.goal_words import goal_words, pointed_words
from classclock.screens.controls.cursor import Cursor
from classclock.screens.controls.search import Search
from classclock.units.printable import printable
from classclock.units.searching import found


class ChartBook(Struct, frozen=True):
    """What the book says, for the chart."""

    athletes: tuple[Athlete, ...] = ()
    bests: Mapping[tuple[str, str], Sequence[Best]] = field(default_factory=dict)
    month: str = ""
    """The month that counts as this one, as in 2026-11."""
    here: frozenset[str] = frozenset()
    """The ids of those who are here."""
    goals: ChartGoals = field(default_factory=dict)


class ChartDesk:
    """What is typed, highlighted and left out. Nothing of it is kept."""

    def __init__(self, *, mirrored: bool, here_words: str = "") -> None:
        """`here_words` says who counts as being here."""
        self.mirrored, self.here_words = mirrored, here_words
        self.book = ChartBook()
        self.search = Search()
        self.across = Cursor()
        """Which benchmark is highlighted."""
        self.sort = "name"
        self.only_here = False
        self.notice = "the book is being read"
        self._chart = Chart((), (), "")
        self._rows: tuple[ChartRow, ...] = ()
        self._off: set[str] = set()

    def know(self, book: ChartBook) -> None:
        self.book, self.notice = book, ""
        self._order()

    @property
    def benchmarks(self) -> tuple[str, ...]:
        return self._chart.benchmarks

    @property
    def rows(self) -> tuple[ChartRow, ...]:
        """Those who match, in their order."""
        return self._rows

    @property
    def highlighted(self) -> ChartRow | None:
        return self.search.cursor.lit(self._rows)

    @property
    def benchmark(self) -> str:
        return self.across.lit(self.benchmarks) or ""

    @property
    def headings(self) -> tuple[str, ...]:
        """The benchmarks as the club writes them."""
        return tuple(column.heading for column in self._chart.columns)

    @property
    def heading(self) -> str:
        return self.across.lit(self.headings) or ""

    @property
    def order(self) -> str:
        """By what the rows are in order, in words."""
        by = self._chart.sorted_by
        order = order_words(self._chart)
        return order if by is None else f"by {printable(by.heading, 30)}, {order}"

    def kept_off(self, row: ChartRow) -> bool:
        """Whether the room may not read this athlete's bests."""
        return self.mirrored and row.athlete in self._off

    @property
    def detail(self) -> str:
        """The highlighted best in words, with those under other terms."""
        row = self.highlighted
        if row is None or not self.benchmarks:
            return ""
        cell = row.cells[self.across.at]
        return cell_words(row, cell, self.heading, off=self.kept_off(row))

    def sign(self, sign: str) -> bool:
        """One key but enter; whether it leaves."""
        self.notice = ""
        if sign in ("<left>", "<right>"):
            self.across.step(1 if sign == "<right>" else -1, len(self.benchmarks))
        elif sign == "<tab>":
            self.sort = "name" if self.sort == self.benchmark else self.benchmark or "name"
            self._order()
        elif sign == "<f6>":
            self._toggle_here()
        elif self.search.sign(sign, len(self._rows)):
            self._find()
        else:
            return sign == "<escape>"
        return False

    def _toggle_here(self) -> None:
        if not self.book.here:
            self.notice = "nobody is known to be here: all are shown"
            return
        self.only_here = not self.only_here
        self.notice = self.here_words if self.only_here else "everybody"
        self._order()

    def _order(self) -> None:
        shown = self.benchmark
        here: Collection[str] | None = self.book.here if self.only_here else None
        try:
            self._chart = self._charted(here, self.sort)
        except LookupError:  # nobody who is here has done it
            self.sort = "name"
            self._chart = self._charted(here, self.sort)
        self._off = {one.id for one in self.book.athletes if one.off_the_wall}
        self.across.follow(shown, self.benchmarks)
        self.search.cursor.at = 0
        self._find()

    def _charted(self, here: Collection[str] | None, sort: str) -> Chart:
        book = self.book
        return chart(
            book.athletes, book.bests, month=book.month, here=here, sort=sort, goals=book.goals
        )

    def _find(self) -> None:
        self._rows = found(self.search.text, self._chart.rows, lambda row: (row.name,))


def cell_words(row: ChartRow, cell: Cell | None, benchmark: str, *, off: bool) -> str:
    """One best in words; `off` where the room may not read it."""
    who = f"{printable(row.name, 40)}, {printable(benchmark, 40)}"
    if off:
        return f"{who}: kept off the wall"
    if cell is None:
        return f"{who}: not yet"
    best = cell.best
    words = [f"{best_words(best)} on {long_day(best.day)}"]
    if best.kind == "load":
        words += [estimate_words(best), terms_words(best) or "as written", *also_words(cell)]
    else:
        words += [str(best.terms), *(f"{one.score} with {one.terms}" for one in cell.others)]
    if cell.goal is not None:
        words += [goal_words(cell.goal.stands), pointed_words(cell.goal.pointed)]
    return printable(f"{who}: {'; '.join(filter(None, words))}", 500)
