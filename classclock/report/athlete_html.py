"""An athlete's page as an HTML file, for the athlete: without marks, which are the coach's."""

from datetime import date

from classclock.records.bests import long_day
from classclock.report.athlete_page import AthletePage
from classclock.report.effort_words import NO_FORECAST, WHAT_IT_IS, shown_weeks
from classclock.report.goal_words import asked_words, pointed_words
from classclock.report.history_svg import drawn
from classclock.report.html_pages import page


def athlete_html(shown: AthletePage, club: str, made: date) -> bytes:
    results, efforts = shown.history, shown_weeks(shown.efforts)
    goal = shown.goal_on(shown.shown)
    history = drawn(results, goal)
    span = f"{long_day(results[0].day)} to {long_day(results[-1].day)}" if results else ""
    return page(
        "athlete.html.jinja",
        title=shown.athlete.name,
        page=shown,
        club=club,
        made=made.isoformat(),
        points=history.points,
        drawn=history,
        goal=goal,
        asked=asked_words,
        pointed=pointed_words,
        efforts=efforts,
        hardest=max((minutes or 0 for week in efforts for minutes in week.days), default=0) or 1,
        about_efforts=(WHAT_IT_IS, NO_FORECAST),
        span=span,
        most=max((week.classes for week in shown.weeks), default=0) or 1,
    )
