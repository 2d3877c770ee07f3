"""Home: which plan to run, or which class that was cut off to rejoin."""

from pathlib import Path

from textual.screen import Screen

from classclock.plan.club import Club
from classclock.screens.look import Look
from classclock.session import PlanFile

HomeChoice = PlanFile | Path
"""A plan to run, or the journal of a class to rejoin."""


class HomeScreen(Screen[HomeChoice | None]):
    """Ends with what was chosen; None leaves classclock."""

    def __init__(self, look: Look, *, folder: Path, club: Club, plans: Path | None = None) -> None:
        """`folder` is the club's; `plans` is one more folder of plans to offer."""
        super().__init__()
        self.look, self.folder, self.club, self.plans = look, folder, club, plans
