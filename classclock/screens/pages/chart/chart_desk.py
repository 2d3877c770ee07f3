"""The coach's keys at the chart: which athlete and benchmark are highlighted, in what order."""

from collections.abc import Collection, Mapping, Sequence

from msgspec import Struct, field

from classclock.book.tables.queries import Athlete, Best
from classclock.report.chart import Chart, ChartRow, chart
from classclock.units.printable import can_be_shown
from classclock.units.searching import found

_LONGEST = 60
_MOVES = {
    "<up>": -1,
    "<down>": 1,
    "<pageup>": -20,
    "<pagedown>": 20,
    "<home>": -1_000_000,
    "<end>": 1_000_000,
}


class ChartBook(Struct, frozen=True):
    """What the book says, for the chart."""

    athletes: tuple[Athlete, ...] = ()
    bests: Mapping[tuple[str, str], Sequence[Best]] = field(default_factory=dict)
    month: str = ""
    """The month that counts as this one, as in 2026-11."""
    here: frozenset[str] = frozenset()
    """The ids of those who are here."""


class ChartDesk:
    """What is typed, highlighted and left out. Nothing of it is kept."""

    def __init__(self, *, mirrored: bool, here_words: str = "") -> None:
        """`here_words` says who counts as being here."""
        self.mirrored, self.here_words = mirrored, here_words
        self.book = ChartBook()
        self.text = ""
        self.row = self.column = 0
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
        return self._rows[self.row] if self._rows else None

    @property
    def benchmark(self) -> str:
        return self.benchmarks[self.column] if self.benchmarks else ""

    def kept_off(self, row: ChartRow) -> bool:
        """Whether the room may not read this athlete's bests."""
        return self.mirrored and row.athlete in self._off

    def sign(self, sign: str) -> bool:
        """One key but enter; whether it leaves."""
        self.notice = ""
        if sign in _MOVES:
            self.row = max(0, min(self.row + _MOVES[sign], len(self._rows) - 1))
        elif sign in ("<left>", "<right>"):
            step = 1 if sign == "<right>" else -1
            self.column = max(0, min(self.column + step, len(self.benchmarks) - 1))
        elif sign == "<tab>":
            self.sort = "name" if self.sort == self.benchmark else self.benchmark or "name"
            self._order()
        elif sign == "<f6>":
            self._toggle_here()
        elif sign == "<escape>":
            if not self.text:
                return True
            self._find("")
        elif sign == "<backspace>":
            self._find(self.text[:-1])
        else:
            typed = " " if sign == "<space>" else sign
            if len(typed) == 1 and can_be_shown(typed) and len(self.text) < _LONGEST:
                self._find(self.text + typed)
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
        self._off = {one.id for one in self.book.athletes if "off the wall" in one.marks}
        known = self._chart.benchmarks
        self.column = known.index(shown) if shown in known else 0
        self._find(self.text)

    def _charted(self, here: Collection[str] | None, sort: str) -> Chart:
        book = self.book
        return chart(book.athletes, book.bests, month=book.month, here=here, sort=sort)

    def _find(self, text: str) -> None:
        self.text, self.row = text, 0
        self._rows = found(text, self._chart.rows, lambda row: (row.name,))
