"""Which page opens which, and where the coach is again when it closes."""

from pathlib import Path
from typing import Any

from classclock.clock.source import local_now
from classclock.plan.plan_file import PlanFile
from classclock.plan.reading.plan_reading import parse_plan
from classclock.plan.settings.club import Club
from classclock.screens.canvas.cells import plain_text
from classclock.screens.canvas.look import Look
from classclock.screens.pages.athlete.athlete_screen import AthleteScreen
from classclock.screens.pages.chart.chart_screen import ChartScreen
from classclock.screens.pages.editor.plan_editor_screen import PlanEditorScreen
from classclock.screens.pages.home.new_plan_screen import NewPlanScreen
from classclock.screens.pages.weeks.weeks_screen import WeeksScreen
from classclock.screens.ways import Ways

PLAN = 'title = "T"\n[[segment]]\nname = "S"\nformat = "countdown"\ntime = "1:00"\n'


async def test_home_chart_athlete_and_back_to_the_same_places(
    open_page: Any, two_classes: Path
) -> None:
    home = Ways(Look(), two_classes).home(Club(name="Line 0 Depot"))
    async with open_page(home) as coach:
        assert "F6 chart" in coach.seen
        await coach.press("down", "f6")
        chart = coach.top
        assert isinstance(chart, ChartScreen)
        await coach.read()
        await coach.press("down", "right", "enter")
        page = coach.top
        assert isinstance(page, AthleteScreen)
        await coach.read()
        shown = plain_text(page.view.paint(*page.view.size))
        assert (page.athlete, page.desk.benchmark) == ("ilse", "turntable")
        assert "benchmark 2 of 2" in shown
        await coach.press("escape")
        assert coach.is_at(chart)
        assert chart.desk.highlighted is not None
        assert (chart.desk.highlighted.name, chart.desk.benchmark) == ("Ilse", "turntable")
        await coach.press("escape")
        assert coach.is_at(home)
        assert home.desk.highlighted is home.desk.entries[1]


async def test_home_weeks_and_back(open_page: Any, tmp_path: Path) -> None:
    home = Ways(Look(), tmp_path).home(Club())
    async with open_page(home) as coach:
        assert "F7 weeks" in coach.seen
        await coach.press("f7")
        weeks = coach.top
        assert isinstance(weeks, WeeksScreen)
        await coach.read()
        assert weeks.desk.book is not None
        await coach.press("down", "up", "escape")
        assert coach.is_at(home)


async def test_home_edits_the_plan_in_focus_and_reads_it_again(
    open_page: Any, tmp_path: Path
) -> None:
    (tmp_path / "plans").mkdir()
    (tmp_path / "plans" / "a-sunday.toml").write_text(PLAN)
    home = Ways(Look(), tmp_path).home(Club())
    async with open_page(home) as coach:
        await coach.press("f8")
        assert isinstance(coach.top, PlanEditorScreen)
        await coach.press("enter", *"Monday", "enter", "escape", "ctrl+s", "escape")
        await coach.read()
        assert home.desk.plans[0].title == "Monday"
        assert home.desk.notice.startswith("saved: ")


async def test_a_new_plan_is_begun_from_home_and_stands_there_after(
    open_page: Any, tmp_path: Path
) -> None:
    home = Ways(Look(), tmp_path).home(Club())
    async with open_page(home) as coach:
        await coach.press("f9")
        asked = coach.top
        assert isinstance(asked, NewPlanScreen)
        await coach.press("escape")
        assert coach.is_at(home)
        await coach.press("f9", "enter")
        assert isinstance(coach.top, PlanEditorScreen)
        await coach.type("Third Rail")
        await coach.press("escape", "ctrl+s", "escape")
        await coach.read()
        assert coach.is_at(home)
        assert home.desk.plans[0].title == "Third Rail"
        await coach.press("enter")
    assert isinstance(coach.result, PlanFile)


async def test_who_is_here_can_be_looked_up_in_the_chart_before_the_class(
    open_page: Any, two_classes: Path
) -> None:
    plan, _ = parse_plan(PLAN, "t.toml")
    assert plan is not None
    who = Ways(Look(), two_classes).who(plan, Club(), local_now())
    async with open_page(who) as coach:
        await coach.press(*"bram", "enter", "f6")
        chart = coach.top
        assert isinstance(chart, ChartScreen)
        await coach.read()
        assert [row.name for row in chart.desk.rows] == ["Bram", "Ilse"]
        await coach.press("f6")
        assert [row.name for row in chart.desk.rows] == ["Bram"]
        assert chart.desk.notice == "who is here"
        await coach.press("escape")
        assert coach.top is who
        assert [person.name for person in who.desk.who.people] == ["Bram"]
