"""What is said of a score beside the same athlete's earlier ones: at the settle, at the end."""

from collections.abc import Mapping

from msgspec.structs import replace

from classclock.book.files.results_document import results_document
from classclock.records.bests import Standing
from classclock.records.own_bests import OwnBests
from classclock.tally.record import ClassRecord, RunKey
from classclock.units.printable import printable
from classclock.wall.hue import Hue
from classclock.wall.score_row import ScoreRow

Standings = Mapping[tuple[RunKey, str], Standing]
"""By piece and lane, how the score would stand if it were settled as it is."""

_HUES: dict[str, Hue] = {"best": "ahead", "equal": "level", "first": "first"}


class KeptStandings:
    """Worked out anew only when the record has changed, or the book has been read."""

    def __init__(self) -> None:
        self._for: tuple[ClassRecord, OwnBests] | None = None
        self._kept: Standings = {}

    def of(self, record: ClassRecord, bests: OwnBests, started: str) -> Standings:
        """`started` is when the class began, RFC 3339."""
        same = self._for is not None and self._for[0] is record and self._for[1] is bests
        if not same:
            self._for = record, bests
            self._kept = standings(record, bests, started)
        return self._kept


def standings(record: ClassRecord, bests: OwnBests, started: str) -> Standings:
    """Empty until the book has been read."""
    if not bests.began:
        return {}
    document = results_document(record, started=started, journal="")
    for piece in document["pieces"]:
        piece["status"] = "settled"  # the coach is to see it before settling it, not after
    keys = record.pieces()
    return {
        (keys[piece], document["pieces"][piece]["lanes"][lane]["members"][0]): standing
        for (piece, lane), standing in bests.standings(document).items()
    }


def best_words(standing: Standing | None) -> str:
    """What is worth a cheer, with how much and since when; nothing where there is nothing new."""
    if standing is None or standing.verdict not in _HUES:
        return ""
    return printable(standing.words(), 120)


def with_best(row: ScoreRow, standing: Standing | None) -> ScoreRow:
    return replace(row, best=best_words(standing), best_hue=best_hue(standing))


def best_hue(standing: Standing | None) -> Hue:
    """The colour of those words."""
    return "first" if standing is None else _HUES.get(standing.verdict, "first")
