"""What the screens show of those who keep loads, rank and bests off the wall."""

from collections.abc import Collection

from msgspec.structs import replace

from classclock.wall.kept_off import DASH
from classclock.wall.lane_bars import Boxes
from classclock.wall.lane_content import LaneContent
from classclock.wall.lift_content import LiftBoard, LiftLane
from classclock.wall.score_row import ScoreRow


def lane_kept_off(content: LaneContent, *, by_load: bool) -> LaneContent:
    """A lane of the wall without them. `by_load`: the piece is scored by load."""
    shown = replace(
        content,
        rank=DASH if content.rank else "",
        against="",
        standing="first",
        planned=(DASH,) if content.planned else (),
        load=DASH if content.load else "",
        unit="",
        plates=DASH if content.plates else "",
    )
    if not by_load:
        return shown
    bar = content.bar
    if isinstance(bar, Boxes):
        hidden = tuple(None if number is None else DASH for number in bar.numbers)
        bar = replace(bar, numbers=hidden)
    tally = DASH if content.tally else ""
    return replace(shown, tally=tally, short_tally=tally, bar=bar)


def beside_kept_off(content: LaneContent) -> LaneContent:
    """A lane that shares a bar with one of them: what changes on it would tell the other's load."""
    plates = content.plates if content.turn == "waits" else ""
    return replace(content, planned=content.planned[-1:], plates=plates)


def lift_kept_off(board: LiftBoard, keys: Collection[str]) -> LiftBoard:
    """The lift on the board, without the loads of the lanes with these keys (large letters)."""
    return replace(board, lanes=tuple(_lift_lane(lane, keys) for lane in board.lanes))


def _lift_lane(lane: LiftLane, keys: Collection[str]) -> LiftLane:
    if not lane.change.shared_by.isdisjoint(keys):
        lane = replace(lane, change=replace(lane.change, plates=""))
    if lane.key not in keys:
        return lane
    kept = replace(lane, amount=DASH, unit="", bar="", plates=(), side="", which="")
    return replace(kept, words="", later="")


def score_kept_off(row: ScoreRow, *, by_load: bool) -> ScoreRow:
    """A score at the settle or the end without them."""
    score = DASH if by_load else row.score
    return replace(row, rank=DASH if row.rank else "", score=score, best="", last="")
