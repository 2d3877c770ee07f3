"""The chart as an HTML page, a sheet for as many benchmarks as stand beside the names."""

from datetime import date

from classclock.report.chart import Chart
from classclock.report.chart_layout import GAP, MARGIN, NEW, chart_layout, small_lines
from classclock.report.html_pages import page


def chart_html(chart: Chart, club: str, made: date) -> bytes:
    return page(
        "chart.html.jinja",
        title=f"{club}: bests" if club else "Bests",
        chart=chart,
        layout=chart_layout(chart),
        fixed={"gap": GAP, "margin": MARGIN, "new": NEW},
        made=made.isoformat(),
        small_lines=small_lines,
    )
