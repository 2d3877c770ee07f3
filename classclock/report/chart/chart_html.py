"""The chart as an HTML page, a sheet for as many benchmarks as stand beside the names."""

from datetime import date

from classclock.report.chart.chart import Chart
from classclock.report.chart.chart_layout import GAP, MARGIN, chart_layout
from classclock.report.chart.chart_words import legend, score_words, small_lines
from classclock.report.html_pages import page


def chart_html(chart: Chart, club: str, made: date) -> bytes:
    return page(
        "chart.html.jinja",
        title=f"{club}: bests" if club else "Bests",
        chart=chart,
        layout=chart_layout(chart),
        fixed={"gap": GAP, "margin": MARGIN},
        made=made.isoformat(),
        legend=legend(chart),
        score_words=score_words,
        small_lines=small_lines,
    )
