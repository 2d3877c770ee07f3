"""Who is here, what each will modify, and when the class ends."""

from collections.abc import Mapping
from dataclasses import dataclass
from datetime import datetime
from pathlib import Path

from textual.screen import Screen

from classclock.plan.club import Club
from classclock.plan.model import Plan
from classclock.screens.look import Look
from classclock.tally.lanes import Choice, Person


@dataclass(frozen=True, slots=True)
class WhoCame:
    people: tuple[Person, ...]
    choices: Mapping[tuple[int, str], Choice]
    """What each modifies, by segment and person's id; only where something was chosen."""
    ends: str
    """When the class ends, RFC 3339 with offset."""


class WhoScreen(Screen[WhoCame | None]):
    """Ends with who came; None goes back."""

    def __init__(
        self, look: Look, plan: Plan, *, folder: Path, club: Club, now: datetime
    ) -> None:
        """`folder` is the club's; `now` the time of day, with its offset."""
        super().__init__()
        self.look, self.plan, self.folder, self.club, self.now = look, plan, folder, club, now
