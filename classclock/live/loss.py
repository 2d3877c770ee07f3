"""Who would lose what: what a class's record tells and nothing on disk would tell again. Pure."""

from collections.abc import Iterator, Sequence

from msgspec import Struct

from classclock.tally import events as ev
from classclock.tally.lanes import Lane
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.scores.scores import scores


class LostScore(Struct, frozen=True):
    """A score that neither journal nor results would give again."""

    lane: Lane
    piece: str
    score: str
    kept: str
    """What they would give; empty is nothing."""


class Loss(Struct, frozen=True):
    """What would be lost for good if the window closed now."""

    scores: tuple[LostScore, ...] = ()
    settled: tuple[str, ...] = ()
    """The pieces that would be provisional again, though no score of theirs would be another."""
    notes: tuple[str, ...] = ()
    """What was noted at an emergency."""
    ended: bool = False
    """Whether all that would be missing is that the class is over."""
    entries: int = 0
    """All events that would be missing."""


def loss(
    now: ClassRecord, kept: ClassRecord, saved: ClassRecord | None, missing: Sequence[ev.Event]
) -> Loss:
    """Lost is what isn't told alike by what the journal keeps, nor by the results that are saved.

    `missing` are the events that the journal lacks.
    """
    sources = (kept,) if saved is None else (saved, kept)
    settled = []
    lost: list[LostScore] = []
    for run in now.pieces():
        found = tuple(_lost_scores(now, sources, run))
        lost += found
        again = any(_is_settled(source, run) for source in sources)
        if _is_settled(now, run) and not again and not found:
            settled.append(now.plan.segment[run.segment].name)
    notes = tuple(event.text for event in missing if isinstance(event, ev.EmergencyNoted))
    ended = bool(missing) and all(isinstance(event, ev.ClassClosed) for event in missing)
    return Loss(tuple(lost), tuple(settled), notes, ended, len(missing))


def _lost_scores(
    now: ClassRecord, sources: Sequence[ClassRecord], run: RunKey
) -> Iterator[LostScore]:
    told = [dict(_scores(source, run)) for source in sources]
    lanes = {lane.id: lane for sheet in now.heats(run) for lane in sheet.lanes}
    for lane, score in _scores(now, run):
        kept = [source[lane] for source in told if lane in source]
        if score not in kept:
            piece = now.plan.segment[run.segment].name
            yield LostScore(lanes[lane], piece, score, kept[0] if kept else "")


def _scores(record: ClassRecord, run: RunKey) -> Iterator[tuple[str, str]]:
    """Each lane's id and score; nobody's where nothing was counted yet."""
    sheets = record.heats(run)
    for score in scores(sheets, now=None, settled=_is_settled(record, run)):
        if score.status != "absent":
            yield score.lane.id, score.score


def _is_settled(record: ClassRecord, run: RunKey) -> bool:
    sheets = record.heats(run)
    return bool(sheets) and all(sheet.settled for sheet in sheets)
