"""A class's report as plain text, short enough for a message to the group."""

from collections.abc import Iterator

from classclock.plan.care import AFTER_A_CLASS
from classclock.records.bests import Standing
from classclock.report.class_report import ClassReport, LaneLine, PieceReport
from classclock.units.printable import printable

_LONGEST = 2000
"""Signs of a line: more than any team with all that is said of it."""


def class_lines(report: ClassReport) -> tuple[str, ...]:
    return tuple(printable(line, _LONGEST) for line in _lines(report))


def _lines(report: ClassReport) -> Iterator[str]:
    yield report.title
    yield report.when
    for piece in report.pieces:
        yield ""
        yield _heading(piece)
        for lane in piece.lanes:
            yield _lane(lane)
    if report.notes:
        yield from ("", "Notes", *report.notes)
    yield ""
    yield from AFTER_A_CLASS


def _heading(piece: PieceReport) -> str:
    provisional = " (provisional)" if piece.provisional else ""
    return f"{piece.name}, {piece.words}{provisional}" if piece.words else piece.name + provisional


def _lane(lane: LaneLine) -> str:
    rank = "-" if lane.rank is None else f"{lane.rank}."
    aside = "; ".join(word for word in (lane.modification, lane.remark) if word)
    said = [f"{rank} {lane.name} {lane.score}" + (f" ({aside})" if aside else "")]
    if lane.standing is not None and (words := short_standing(lane.standing)):
        said.append(words)
    return ", ".join(said)


def short_standing(standing: Standing) -> str:
    """What is worth a cheer; nothing where there is nothing new."""
    goal = f"goal {standing.goal} reached" if standing.goal else ""
    return ", ".join(filter(None, (goal, _new(standing))))


def _new(standing: Standing) -> str:
    match standing.verdict:
        case "best":
            return f"new best, before {standing.before.score}" if standing.before else ""
        case "equal":
            return "equals own best"
        case "first":
            return "first time"
        case _:
            return ""
