"""What stays off the wall of those who want it so: their loads, rank and bests; a dash instead."""

from collections.abc import Collection, Iterable

from msgspec.structs import replace

from classclock.live import Outcome
from classclock.screens.lane_bars import Boxes
from classclock.screens.lane_content import LaneContent
from classclock.screens.lift_content import LiftBoard
from classclock.screens.score_layout import ScoreRow
from classclock.tally import events as ev
from classclock.tally.lanes import Lane, Person
from classclock.tally.record import ClassRecord

DASH = "-"


def off_the_wall(lane: Lane, people: Iterable[Person]) -> bool:
    """Whether somebody in this lane keeps these things to themselves."""
    return any(one.off_the_wall and one.id in lane.members for one in people)


def lane_kept_off(content: LaneContent, *, by_load: bool) -> LaneContent:
    """A lane of the wall without them. `by_load`: the piece is scored by load."""
    shown = replace(
        content,
        rank=DASH if content.rank else "",
        against="",
        standing="first",
        planned=(DASH,) if content.planned else (),
    )
    if not by_load:
        return shown
    bar = content.bar
    if isinstance(bar, Boxes):
        hidden = tuple(None if number is None else DASH for number in bar.numbers)
        bar = replace(bar, numbers=hidden)
    tally = DASH if content.tally else ""
    return replace(shown, tally=tally, short_tally=tally, bar=bar)


def lift_kept_off(board: LiftBoard, keys: Collection[str]) -> LiftBoard:
    """The lift on the board, without the loads of the lanes with these keys (large letters)."""
    lanes = tuple(
        replace(lane, amount="", unit="", bar="", plates=(), side="", words=DASH, later="")
        if lane.key in keys
        else lane
        for lane in board.lanes
    )
    return replace(board, lanes=lanes)


def score_kept_off(row: ScoreRow, *, by_load: bool) -> ScoreRow:
    """A score at the settle or the end without them."""
    score = DASH if by_load else row.score
    return replace(row, rank=DASH if row.rank else "", score=score, best="")


def said_to_the_room(outcome: Outcome, record: ClassRecord) -> str:
    """What came of a command, in words that say no load of theirs."""
    sheet = record.sheet
    if sheet is None or sheet.piece.counts_by != "load":
        return outcome.text
    for event in outcome.events:
        lane_id = _lane_of(event, record)
        tally = sheet.tallies.get(lane_id or "")
        if tally is not None and off_the_wall(tally.lane, record.people):
            return f"{tally.lane.name}: noted"
    return outcome.text


def _lane_of(event: ev.Event, record: ClassRecord) -> str | None:
    match event:
        case ev.LaneEvent(lane=lane):
            return lane
        case ev.TookBack(entry=entry) | ev.BroughtBack(entry=entry):
            return record.sheet.ledgers.lane_of(entry) if record.sheet is not None else None
        case _:
            return None
