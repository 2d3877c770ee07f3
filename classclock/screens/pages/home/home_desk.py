"""The coach's keys at home: what is typed, and which line is highlighted."""

from collections.abc import Sequence

from classclock.screens.controls.search import Search
from classclock.screens.pages.home.home_list import HomeEntry
from classclock.units.searching import found


class HomeDesk:
    def __init__(
        self,
        plans: Sequence[HomeEntry],
        *,
        cut_off: tuple[HomeEntry, ...] = (),
        club: str = "",
        no_card: str = "",
    ) -> None:
        """`cut_off` are classes to be rejoined: until something is typed they stand first.

        `club` is its name; `no_card` says what its emergency card lacks.
        """
        self.plans = list(plans)
        self.cut_off = cut_off
        self.club, self.no_card = club, no_card
        self.search = Search()
        self.notice = ""

    @property
    def entries(self) -> tuple[HomeEntry, ...]:
        """Those that match what is typed, the likeliest first."""
        every = (*self.cut_off, *self.plans)
        return found(self.search.text, every, lambda entry: (entry.title, entry.words))

    @property
    def highlighted(self) -> HomeEntry | None:
        return self.search.cursor.lit(self.entries)

    def sign(self, sign: str) -> bool:
        """One key but enter; whether it leaves."""
        self.notice = ""
        return not self.search.sign(sign, len(self.entries)) and sign == "<escape>"
