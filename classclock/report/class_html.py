"""A class's report as one HTML file that prints on one A4 page."""

from classclock.plan.care import AFTER_A_CLASS
from classclock.report.class_report import ClassReport, LaneLine
from classclock.report.class_text import short_standing
from classclock.report.html_pages import page

_PAGE, _HEAD, _PIECE, _CAUTION = 268.0, 30.0, 15.0, 4.6
"""Millimetres: what an A4 page holds; what of it head and foot, a piece's head, a caution take."""
_NOTE = 110
"""Signs of a note on one printed line."""
_TALLEST, _ONE_COLUMN = 8.0, 34
"""Millimetres of a lane's row at most; with more lanes than that they stand in two columns."""


def class_html(report: ClassReport) -> bytes:
    columns = 2 if report.lines > _ONE_COLUMN else 1
    return page(
        "class.html.jinja",
        title=f"{report.title}, {report.when}",
        report=report,
        columns=columns,
        row=f"{row_height(report, columns):.2f}",
        after=AFTER_A_CLASS,
        standing_words=_in_full if columns == 1 else _in_short,
    )


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


def row_height(report: ClassReport, columns: int) -> float:
    """How tall a lane's row may be in print, in millimetres, for all to fit on the page."""
    rows = sum(-(-len(piece.lanes) // columns) for piece in report.pieces)
    cautions = sum(len(piece.caution) for piece in report.pieces)
    left = _PAGE - _HEAD - _PIECE * len(report.pieces) - _CAUTION * cautions
    if report.notes:
        left -= _PIECE + _CAUTION * sum(-(-len(note) // _NOTE) for note in report.notes)
    return min(_TALLEST, left / max(1, rows))
