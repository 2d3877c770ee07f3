"""What is said of a score beside the same athlete's earlier ones: at the settle, at the end."""

from collections.abc import Mapping

from msgspec.structs import replace

from classclock.records.bests import Standing
from classclock.records.class_document import results_document
from classclock.records.own_bests import OwnBests
from classclock.tally.record import ClassRecord, RunKey
from classclock.units.kept import Same
from classclock.units.printable import printable
from classclock.wall.hue import Hue
from classclock.wall.score_row import ScoreRow

RunStandings = Mapping[tuple[RunKey, str], Standing]
"""By piece and lane, how the score would stand if it were settled as it is."""

_HUES: dict[str, Hue] = {"best": "ahead", "equal": "level", "first": "first"}


def standings(record: Same[ClassRecord], bests: Same[OwnBests], started: str) -> RunStandings:
    """Empty until the book has been read. `started` is when the class began, RFC 3339."""
    if not bests.it.began:
        return {}
    document = results_document(record.it, started=started, journal="")
    # The coach is to see it before settling it, not after.
    pieces = tuple(replace(piece, status="settled") for piece in document.pieces)
    document = replace(document, pieces=pieces)
    keys = record.it.pieces()
    return {
        (keys[piece], pieces[piece].lanes[lane].members[0]): standing
        for (piece, lane), standing in bests.it.standings(document).items()
    }


def best_words(standing: Standing | None) -> str:
    """What is worth a cheer, with how much and since when; nothing where there is nothing new."""
    if standing is None or (standing.verdict not in _HUES and not standing.goal):
        return ""
    return printable(standing.words(), 120)


def with_best(row: ScoreRow, standing: Standing | None) -> ScoreRow:
    return replace(row, best=best_words(standing), best_hue=best_hue(standing))


def with_last(row: ScoreRow, standing: Standing | None) -> ScoreRow:
    """Beside the latest score before it, where both are of equal terms."""
    last = standing.last if standing is not None else None
    return row if last is None else replace(row, last=printable(last.score, 20))


def best_hue(standing: Standing | None) -> Hue:
    """The colour of those words."""
    if standing is None:
        return "first"
    return "ahead" if standing.goal else _HUES.get(standing.verdict, "first")
