"""What is shown at the end of the class: pure values, ready to be painted."""

from collections.abc import Sequence
from pathlib import Path

from msgspec import Struct

from classclock.live.standing_class import StandingClass
from classclock.records.bests import Standing
from classclock.tally.fitted_words import described
from classclock.tally.record import ClassRecord
from classclock.tally.scores.lane_score import LaneScore
from classclock.tally.scores.scores import scores
from classclock.tally.signs import SIGNS, Doubt, Remark, signed, told_by
from classclock.units.printable import printable
from classclock.wall.best_words import RunStandings, with_best, with_last
from classclock.wall.between.effort_lines import effort_asked
from classclock.wall.kept_off import off_the_wall
from classclock.wall.kept_off_content import score_kept_off
from classclock.wall.score_row import ScoreRow


class PieceSummary(Struct, frozen=True):
    name: str
    words: str
    rows: tuple[ScoreRow, ...]


class Summary(Struct, frozen=True):
    title: str
    pieces: tuple[PieceSummary, ...]
    saved: str
    """Where the results are, or that they aren't saved yet."""
    short_saved: str
    """The same where there is little room."""
    asked: tuple[str, ...] = ()
    """How hard it was: the question, and who has answered; nothing where nobody is asked."""


def summary(
    live: StandingClass, saved: tuple[str, ...], standings: RunStandings | None = None
) -> Summary:
    """All pieces that have run, each with the scores of those who took part.

    New bests stand first, then all others; both in rank order. `standings` says how scores stand
    beside earlier ones; a provisional one is never a best.
    """
    record = live.record
    pieces = []
    for key in record.pieces():
        heats = record.heats(key)
        segment = heats[0].piece.segment
        again = f", attempt {key.attempt}" if key.attempt > 1 else ""
        settled = all(sheet.settled for sheet in heats)
        provisional = "" if settled else ", provisional"
        rows = [
            _row(score, (standings or {}).get((key, score.lane.id)) if settled else None, record)
            for score in _in_order(scores(heats, now=None, settled=settled), record)
            if score.status != "absent"
        ]
        rows.sort(key=lambda row: not row.new_best)
        words = printable(described(record, key.segment, heats[0]), 120) + provisional
        pieces.append(PieceSummary(printable(segment.name) + again, words, tuple(rows)))
    where = where_saved(saved, any_=bool(pieces))
    return Summary(printable(record.plan.title), tuple(pieces), *where, effort_asked(record))


def where_saved(saved: tuple[str, ...], *, any_: bool) -> tuple[str, str]:
    """Where the results are, in full and in short."""
    if not any_:
        return ("nothing was scored",) * 2
    if not saved:
        return ("not saved yet: it is tried again",) * 2
    whole = f"saved: {saved[0]}, with a table for each piece beside it"
    return whole, f"saved: {Path(saved[0]).name}"


def _in_order(every: Sequence[LaneScore], record: ClassRecord) -> list[LaneScore]:
    """By rank; whoever keeps theirs to themselves last, since it could be read from their place."""
    return sorted(every, key=lambda score: off_the_wall(score.lane, record.people))


def _row(score: LaneScore, standing: Standing | None, record: ClassRecord) -> ScoreRow:
    # Nobody looks again here, and the room may not read what a doubt on a load says: a word does.
    doubts = dict.fromkeys(told_by(flag) for flag in score.flags)
    words: dict[Doubt | Remark, str] = {doubt: SIGNS[doubt].word for doubt in doubts}
    if score.status == "stopped":
        words["stopped"] = SIGNS["stopped"].word
    if score.modification:
        words["option"] = printable(score.modification)
    row = ScoreRow(
        name=printable(score.athlete, 40),
        score=score.score,
        rank="" if score.rank is None else str(score.rank),
        notes=tuple(signed(kind, said) for kind, said in words.items()),
        signs="".join(SIGNS[kind].sign for kind in words),
    )
    row = with_last(with_best(row, standing), standing)
    if off_the_wall(score.lane, record.people):
        return score_kept_off(row, by_load=score.load_kg is not None or bool(score.attempts))
    return row
