"""Which page opens which: each is made here, and handed the makers of those that it opens.

A page's code is loaded when the page is first opened: no start waits for it.
"""

from collections.abc import Collection
from datetime import datetime
from functools import partial
from pathlib import Path
from typing import TYPE_CHECKING

from classclock.clock.source import local_now
from classclock.club.folder import settings
from classclock.plan.model import Plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.look import Look

if TYPE_CHECKING:
    from classclock.drafts.plan_being_written import PlanOnDisk
    from classclock.screens.card.emergency_screen import EmergencyScreen
    from classclock.screens.pages.athlete.athlete_screen import AthleteScreen
    from classclock.screens.pages.chart.chart_screen import ChartScreen
    from classclock.screens.pages.clock.clock_screen import ClockScreen
    from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen
    from classclock.screens.pages.first_run.first_run_screen import FirstRunScreen
    from classclock.screens.pages.first_run.letters_screen import LettersScreen
    from classclock.screens.pages.home.home_screen import HomeScreen
    from classclock.screens.pages.home.new_plan_screen import NewPlanScreen
    from classclock.screens.pages.weeks.weeks_screen import WeeksScreen
    from classclock.screens.pages.who.who_screen import WhoScreen


class Ways:
    """The pages of one club's folder."""

    def __init__(self, look: Look, folder: Path) -> None:
        self._look, self._folder = look, folder

    def letters(self, kind: str) -> "LettersScreen":
        from classclock.screens.pages.first_run.letters_screen import LettersScreen

        return LettersScreen(self._look, kind, self._folder)

    def first_run(self) -> "FirstRunScreen":
        from classclock.screens.pages.first_run.first_run_screen import FirstRunScreen

        return FirstRunScreen(self._look, settings(self._folder))

    def card(self, club: Club) -> "EmergencyScreen":
        from classclock.screens.card.emergency_screen import EmergencyScreen

        return EmergencyScreen(self._look, settings(self._folder), club.emergency)

    def home(self, club: Club) -> "HomeScreen":
        from classclock.screens.pages.home.home_screen import HomeScreen

        return HomeScreen(self._look, folder=self._folder, club=club, now=local_now(), opens=self)

    def clock(self, line: str = "") -> "ClockScreen":
        from classclock.screens.pages.clock.clock_screen import ClockScreen

        return ClockScreen(self._look, line)

    def who(self, plan: Plan, club: Club, now: datetime) -> "WhoScreen":
        from classclock.screens.pages.who.who_screen import WhoScreen

        chart = partial(self.chart, club)
        return WhoScreen(self._look, plan, folder=self._folder, club=club, now=now, chart=chart)

    def chart(self, club: Club, here: Collection[str] | None = None) -> "ChartScreen":
        from classclock.screens.pages.chart.chart_screen import ChartScreen

        page_of = partial(self.athlete, club)
        return ChartScreen(self._look, folder=self._folder, club=club, page_of=page_of, here=here)

    def athlete(self, club: Club, athlete: str, benchmark: str) -> "AthleteScreen":
        from classclock.screens.pages.athlete.athlete_screen import AthleteScreen

        return AthleteScreen(
            self._look,
            athlete,
            folder=self._folder,
            mirrored=club.tv.mirrored,
            benchmark=benchmark,
            unit=club.unit,
        )

    def weeks(self, club: Club) -> "WeeksScreen":
        from classclock.screens.pages.weeks.weeks_screen import WeeksScreen

        return WeeksScreen(self._look, folder=self._folder, club=club)

    def new_plan(self) -> "NewPlanScreen":
        from classclock.screens.pages.home.new_plan_screen import NewPlanScreen

        return NewPlanScreen(self._look, folder=self._folder)

    def editor(self, plan: "PlanOnDisk", club: Club) -> "PlanEditorScreen":
        from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen

        return PlanEditorScreen(self._look, plan, folder=self._folder, club=club)
