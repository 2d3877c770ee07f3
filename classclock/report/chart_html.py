"""The chart as an HTML page."""

from datetime import date

from classclock.report.chart import Chart, terms_words
from classclock.report.html_pages import page


def chart_html(chart: Chart, club: str, made: date) -> bytes:
    title = f"{club}: bests" if club else "Bests"
    return page(
        "chart.html.jinja", title=title, chart=chart, made=made.isoformat(), terms=terms_words
    )
