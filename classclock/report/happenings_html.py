"""The page for the club's own file: accidents, holds and notes, with room to write by hand."""

from classclock.report.happenings import Happenings
from classclock.report.happenings_text import HEADINGS, LOCAL_RULES, NOTHING, when_words
from classclock.report.html_pages import page

BY_HAND = ("Who saw it", "Who was called, and when", "What was done after", "Date, signature")
"""What a file on an accident asks for, and no journal knows. Common practice, no source."""


def happenings_html(told: Happenings) -> bytes:
    when = when_words(told.started)
    return page(
        "happenings.html.jinja",
        title=f"{told.title}, {when}",
        told=told,
        when=when,
        headings=HEADINGS,
        nothing=NOTHING,
        by_hand=BY_HAND if told.of_kind("accident") else (),
        rules=LOCAL_RULES,
    )
