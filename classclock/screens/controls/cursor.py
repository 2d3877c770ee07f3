"""A place in a list, which never leaves it however the list changes."""

from collections.abc import Sequence
from typing import TypeVar

from msgspec import Struct

Item = TypeVar("Item")

PAGE = 20
"""Lines that page up and page down go by."""
_STEPS = {"<up>": -1, "<down>": 1, "<pageup>": -PAGE, "<pagedown>": PAGE}


class Cursor(Struct):
    """Lists change under it, so whoever asks says how long the list is now, or hands it over."""

    at: int = 0

    def within(self, count: int) -> int:
        """Where it stands in a list of so many: at the last where they are fewer now."""
        return max(0, min(self.at, count - 1))

    def lit(self, items: Sequence[Item]) -> Item | None:
        """What it stands on; None in an empty list."""
        return items[self.within(len(items))] if items else None

    def step(self, by: int, count: int) -> None:
        """Go so many places on, or back; not out of the list."""
        self.at = self.within(count) + by
        self.at = self.within(count)

    def round(self, by: int, count: int) -> None:
        """The same, but from the last on to the first, and back."""
        self.at = (self.within(count) + by) % max(1, count)

    def sign(self, sign: str, count: int) -> bool:
        """Up, down, page up, page down, home, end; whether it was one of these."""
        if sign in _STEPS:
            self.step(_STEPS[sign], count)
        elif sign in ("<home>", "<end>"):
            self.at = 0 if sign == "<home>" else max(0, count - 1)
        else:
            return False
        return True

    def follow(self, item: Item, items: Sequence[Item]) -> None:
        """Stand on this one in a list of another order; on the first where it is gone."""
        self.at = items.index(item) if item in items else 0

    def first_in_view(self, fitting: int, count: int) -> int:
        """The first of as many as fit, so that it stands amid them and no room is left empty."""
        return max(0, min(self.within(count) - fitting // 2, count - fitting))
