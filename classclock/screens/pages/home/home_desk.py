"""The coach's keys at home: what is typed, and which line is highlighted."""

from msgspec import Struct

from classclock.screens.pages.home.home_list import HomeEntry
from classclock.units.printable import can_be_shown
from classclock.units.searching import found

_LONGEST = 60


class HomeDesk(Struct):
    cut_off: tuple[HomeEntry, ...]
    """Classes to be rejoined: until something is typed they stand first."""
    plans: list[HomeEntry]
    club: str = ""
    no_card: str = ""
    """What the club's emergency card lacks."""
    text: str = ""
    at: int = 0
    notice: str = ""

    @property
    def entries(self) -> tuple[HomeEntry, ...]:
        """Those that match what is typed, the likeliest first."""
        every = (*self.cut_off, *self.plans)
        return found(self.text, every, lambda entry: (entry.title, entry.words))

    @property
    def highlighted(self) -> HomeEntry | None:
        entries = self.entries
        return entries[min(self.at, len(entries) - 1)] if entries else None

    def sign(self, sign: str) -> bool:
        """One key but enter; whether it leaves."""
        self.notice = ""
        if sign == "<escape>":
            if not self.text:
                return True
            self.text, self.at = "", 0
        elif sign in ("<up>", "<down>"):
            last = max(0, len(self.entries) - 1)
            self.at = max(0, min(min(self.at, last) + (1 if sign == "<down>" else -1), last))
        elif sign == "<backspace>":
            self.text, self.at = self.text[:-1], 0
        else:
            typed = " " if sign == "<space>" else sign
            if len(typed) == 1 and can_be_shown(typed) and len(self.text) < _LONGEST:
                self.text, self.at = self.text + typed, 0
        return False
