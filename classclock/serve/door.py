"""Screens whose remote can't type a secret: each shows six digits, and waits to be let in."""

import asyncio
import secrets
from collections.abc import Callable

from msgspec import Struct

MOST_WAITING = 4
"""With more of them a coach couldn't tell which is which."""
PATIENCE = 600
"""Seconds for which one waits; after that it begins anew, with other digits."""


class Waiting(Struct, frozen=True, eq=False):
    digits: str
    let_in: "asyncio.Future[str]"
    """The path that it may go to."""


class Door:
    def __init__(
        self,
        told: Callable[[], object] = lambda: None,
        draw: Callable[[], str] = lambda: f"{secrets.randbelow(1_000_000):06}",
    ) -> None:
        """`told` is called when who waits has changed; `draw` gives digits by lot."""
        self._told, self._draw = told, draw
        self._waiting: dict[str, Waiting] = {}

    @property
    def digits(self) -> tuple[str, ...]:
        """Of all who wait, who came first first."""
        return tuple(self._waiting)

    @property
    def is_full(self) -> bool:
        return len(self._waiting) >= MOST_WAITING

    def knock(self) -> Waiting | None:
        """One more waits; None where too many do."""
        if self.is_full:
            return None
        digits = self._draw()
        while digits in self._waiting:
            digits = self._draw()
        waiting = Waiting(digits, asyncio.get_running_loop().create_future())
        self._waiting[digits] = waiting
        self._told()
        return waiting

    def let_in(self, digits: str, path: str) -> bool:
        """Let the one with these digits go to that path; whether one had them."""
        waiting = self._waiting.pop(digits, None)
        if waiting is None:
            return False
        waiting.let_in.set_result(path)
        self._told()
        return True

    def leave(self, waiting: Waiting) -> None:
        """It waits no longer."""
        if self._waiting.get(waiting.digits) is waiting:
            del self._waiting[waiting.digits]
            self._told()
