"""A month as one HTML file, to print on as few A4 pages as its letters allow."""

from datetime import date

from classclock.records.benchmark_headings import heading
from classclock.report.html_pages import page as html_page
from classclock.report.month.month_layout import GAP, MARGIN, month_layout
from classclock.report.month.month_text import (
    CAME,
    NOTHING,
    aside_words,
    day_words,
    sum_words,
    title_words,
)
from classclock.report.month.page import MonthPage


def month_html(page: MonthPage, club: str, made: date) -> bytes:
    title = title_words(page)
    return html_page(
        "month.html.jinja",
        title=f"{club}: {title}" if club else title,
        heading=title,
        page=page,
        club=club,
        made=made.isoformat(),
        sums=sum_words(page),
        aside=aside_words,
        heading_of=heading,
        day=day_words,
        came=CAME,
        nothing=NOTHING,
        layout=month_layout(page),
        fixed={"gap": GAP, "margin": MARGIN},
    )
