"""A class's report as one HTML file, to print on as few A4 pages as its letters allow."""

from classclock.plan.care import AFTER_A_CLASS
from classclock.report.class_layout import GAP, MARGIN, RANK, SMALL, class_layout, parts_of
from classclock.report.class_report import ClassReport, LaneLine
from classclock.report.class_text import short_standing
from classclock.report.html_pages import page


def class_html(report: ClassReport) -> bytes:
    layout = class_layout(report, _aside)
    return page(
        "class.html.jinja",
        title=f"{report.title}, {report.when}",
        report=report,
        layout=layout,
        fixed={"gap": GAP, "margin": MARGIN, "rank": RANK, "small": SMALL},
        parts=parts_of,
        after=AFTER_A_CLASS,
        standing_words=_in_full if layout.columns == 1 else _in_short,
    )


def _aside(lane: LaneLine, columns: int) -> str:
    """All that is said beside a score, to be measured."""
    standing = _in_full(lane) if columns == 1 else _in_short(lane)
    return "; ".join(filter(None, (lane.tried, standing, lane.modification, lane.remark)))


def _in_full(lane: LaneLine) -> str:
    """All that is to be said beside the best; why nothing is compared stays unsaid here."""
    standing = lane.standing
    return "" if standing is None or standing.verdict == "not compared" else standing.words()


def _in_short(lane: LaneLine) -> str:
    standing = lane.standing
    if standing is None:
        return ""
    if standing.verdict == "below" and standing.before is not None:
        return f"best {standing.before.score}"
    return short_standing(standing)
