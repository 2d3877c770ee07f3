"""What a class's report says: scores, ribbons, bests, cautions. Values, from a results document.

Display names only; no marks, no reasons of corrections, no attendance. Who is kept off the wall
is left out, and so is each note that names them.
"""

from collections.abc import Collection, Mapping
from datetime import datetime
from itertools import pairwise

from msgspec import Struct

from classclock.plan.formats.fit import length_of_planned
from classclock.plan.model import FORMATS
from classclock.records.attempts import standing_attempts
from classclock.records.bests import Standing, long_day
from classclock.records.document import LaneResults, PieceResults, ResultsDocument, known
from classclock.tally.signs import SIGNS
from classclock.units.names import names_pattern
from classclock.units.times import show_time

PageStandings = Mapping[tuple[int, int], Standing]
"""By piece and lane, from 0 in the document: how the score stands beside earlier ones."""

_DAYS = ("Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday")


class PageRibbon(Struct, frozen=True):
    """A lane along the time axis of its piece, which ends at `length`; whole seconds."""

    length: int
    rounds: tuple[tuple[int, int], ...]
    """When each round began and ended, as far as that is known."""
    going: tuple[int, int] | None
    """The round that the cap cut off."""

    @property
    def words(self) -> str:
        """The same for who can't see it."""
        times = ", ".join(show_time((end - start) * 1000) for start, end in self.rounds)
        return f"{len(self.rounds)} rounds: {times}"


class LaneLine(Struct, frozen=True):
    rank: int | None
    name: str
    score: str
    modification: str
    remark: str
    """Late, or stopped early."""
    standing: Standing | None
    ribbon: PageRibbon | None
    tried: str
    """Of a piece scored by load: what was lifted."""


class PieceReport(Struct, frozen=True):
    name: str
    words: str
    provisional: bool
    caution: tuple[str, ...]
    lanes: tuple[LaneLine, ...]


class ClassReport(Struct, frozen=True, omit_defaults=True):
    title: str
    when: str
    club: str
    pieces: tuple[PieceReport, ...]
    notes: tuple[str, ...] = ()
    """Only where the coach asks for them."""

    @property
    def lines(self) -> int:
        """How many lanes there are in all."""
        return sum(len(piece.lanes) for piece in self.pieces)


def class_report(
    document: ResultsDocument,
    standings: PageStandings | None = None,
    club: str = "",
    notes: tuple[str, ...] = (),
    private: Collection[str] = (),
) -> ClassReport:
    """The report of one class. Without `standings` it says nothing of bests.

    `private` are the ids of those who are left out.
    """
    started = datetime.fromisoformat(document.started)
    when = f"{_DAYS[started.weekday()]} {long_day(started.date().isoformat())}, {started:%H:%M}"
    pieces: list[PieceReport] = []
    for number, piece in enumerate(document.pieces):
        said = {line for earlier in pieces for line in earlier.caution}
        pieces.append(_piece(number, piece, standings or {}, said, private))
    named = names_pattern(one.name for one in document.people if one.id in private)
    notes = tuple(note for note in notes if named is None or not named.search(note))
    return ClassReport(document.title, when, club, tuple(pieces), notes)


def _piece(
    number: int,
    piece: PieceResults,
    standings: PageStandings,
    said: Collection[str],
    private: Collection[str],
) -> PieceReport:
    """A piece; of its cautions those that no earlier piece of the class has said."""
    lanes = tuple(
        _lane(piece, lane, standings.get((number, place)), name)
        for place, lane in enumerate(piece.lanes)
        if lane.status != "absent" and (name := _name(lane, private))
    )
    again = f", attempt {piece.attempt}" if piece.attempt > 1 else ""
    return PieceReport(
        piece.name + again,
        _format_words(piece),
        piece.status != "settled",
        tuple(line for line in known(piece.caution, ()) if line not in said),
        lanes,
    )


def _format_words(piece: PieceResults) -> str:
    form, length = FORMATS.get(piece.format), known(piece.length_s, None)
    timed, untimed = ("{time}", "") if form is None else form.about.reported
    if length is None:
        return untimed
    planned = known(piece.planned_s, None)
    time = (
        show_time(length * 1000)
        if planned is None
        else length_of_planned(length * 1000, planned * 1000)
    )
    return timed.format(time=time)


def _name(lane: LaneResults, private: Collection[str]) -> str:
    """Whose line it is; of a team those who may be named, and empty where nobody may."""
    hidden = [member in private for member in lane.members]
    parts = lane.athlete.split(" + ")
    if not any(hidden):
        return lane.athlete
    if all(hidden) or len(parts) != len(hidden):
        return ""
    shown = (part for part, hide in zip(parts, hidden, strict=True) if not hide)
    return " + ".join((*shown, f"{sum(hidden)} more"))


def _lane(piece: PieceResults, lane: LaneResults, standing: Standing | None, name: str) -> LaneLine:
    remarks = ["late"] if lane.late else []
    if lane.status == "stopped":
        remarks.append(SIGNS["stopped"].word)
    return LaneLine(
        lane.rank,
        name,
        lane.score,
        lane.modification,
        ", ".join(remarks),
        standing,
        _ribbon(piece, lane),
        _tried(lane),
    )


def _ribbon(piece: PieceResults, lane: LaneResults) -> PageRibbon | None:
    length = known(piece.length_s, None)
    ends = [0]
    for split in lane.splits:
        if split is None or split < 0:  # files of before say less than nothing of a moved call
            break
        ends.append(ends[-1] + split)
    if not length or len(ends) == 1 or lane.late:
        return None
    rounds = tuple(pairwise(ends))
    cut_off = lane.status in ("scored", "capped") and len(ends) > len(lane.splits)
    going = (ends[-1], length) if cut_off and ends[-1] < length else None
    return PageRibbon(max(length, ends[-1]), rounds, going)


def _tried(lane: LaneResults) -> str:
    """`60, 70; missed 80`: the unit stands at the score, unless several were used."""
    tried = [(load, attempt.made) for attempt in standing_attempts(lane) if (load := attempt.load)]
    units = {load.rpartition(" ")[2] for load, _ in tried}
    unit = f" {units.pop()}" if len(units) == 1 else ""
    made, missed = (
        ", ".join(load.removesuffix(unit) for load, was_made in tried if was_made is wanted)
        for wanted in (True, False)
    )
    return "; ".join(part for part in (made, missed and f"missed {missed}") if part)
