"""The picture of a lane's work, as plain values: a ribbon, a share of the whole, or boxes."""

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.timeline import Timeline
from classclock.records.goal_pace import round_due, work_due
from classclock.records.goals import Goal
from classclock.tally.counting.work import Work
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.tally.signs import SIGNS
from classclock.units.loads import plain
from classclock.units.times import show_time
from classclock.wall.blocks import Block, BlockKind


class Ribbon(Struct, frozen=True):
    """Rounds along the time axis, in milliseconds of the piece."""

    cap: int
    rounds: tuple[Block, ...]
    reached: int
    stopped: bool
    goal: int | None = None
    """When the round in progress is over at the goal's pace; None where there is no goal."""


class Share(Struct, frozen=True):
    """The work done as a share of the whole, in reps or in rounds."""

    whole: int
    rounds: tuple[int, ...]
    done: int
    finish: str
    goal: int | None = None
    """How much work is done by now at the goal's pace."""


class Boxes(Struct, frozen=True):
    """A box for each interval or attempt."""

    numbers: tuple[str | None, ...]
    current: int | None


LaneBar = Ribbon | Share | Boxes


def bar_of(
    piece: Piece, timeline: Timeline, tally: LaneTally, elapsed: int, goal: Goal | None = None
) -> LaneBar | None:
    """What stands beside this lane's tally, at so many milliseconds of the piece."""
    match piece.counts_by:
        case "rounds" if piece.can_finish:
            due = None if goal is None else work_due(goal, tally, elapsed, timeline.total, piece)
            return replace(_share(piece, tally), goal=due)
        case "rounds":
            over = None if goal is None else round_due(goal, tally, timeline.total, piece)
            return replace(_ribbon(timeline.total, tally, elapsed), goal=over)
        case "intervals":
            return _intervals(timeline, tally, elapsed)
        case "load":
            return _attempts(timeline, tally, elapsed)
        case _:
            return None


def _ribbon(cap: int, tally: LaneTally, elapsed: int) -> Ribbon:
    """Rounds that were filled in share the time up to the next one that was tapped.

    So do those whose moment lies before the lane joined, or before the one before.
    """
    blocks: list[Block] = []
    for number, done in enumerate(tally.rounds):
        last = blocks[-1].end if blocks else tally.joined
        if done.at is not None and done.at >= last:
            end = done.at
        else:
            end = _shared_end(tally, number, last, elapsed)
        kind: BlockKind = "filled in" if done.filled else "doubtful" if done.doubtful else "counted"
        blocks.append(Block(max(last, end), kind))
    reached = min(elapsed, cap)
    if tally.stopped is not None:
        reached = tally.stopped
    return Ribbon(cap, tuple(blocks), reached, stopped=tally.out)


def _shared_end(tally: LaneTally, number: int, since: int, elapsed: int) -> int:
    """The end of a round whose moment isn't known: those up to the next known one are as long."""
    rest = [done.at for done in tally.rounds[number:]]
    known = ((n, at) for n, at in enumerate(rest) if at is not None and at >= since)
    missing, until = next(known, (len(rest), elapsed))
    return since + (until - since) // (missing + 1)


def _share(piece: Piece, tally: LaneTally) -> Share:
    work = Work(piece, tally.lane)
    count = piece.rounds or 0
    sizes = [
        tally.rounds[index].reps if index < len(tally.rounds) else work.round_reps(index)
        for index in range(count)
    ]
    finish = "" if tally.finish is None else show_time(-(-tally.finish // 1000) * 1000)
    if not any(sizes):
        return Share(count, tuple(range(1, count + 1)), len(tally.rounds), finish)
    ends = tuple(sum(sizes[: index + 1]) for index in range(count))
    return Share(ends[-1], ends, min(tally.total_reps, ends[-1]), finish)


def _intervals(timeline: Timeline, tally: LaneTally, elapsed: int) -> Boxes:
    numbers = tuple(None if reps is None else str(reps) for reps in tally.intervals)
    return Boxes(numbers, current_step(timeline, elapsed))


def current_step(timeline: Timeline, elapsed: int) -> int | None:
    """Which work step is on, from 0; in a rest the one to come; None once all are over."""
    reading = timeline.at(elapsed)
    if reading.over:
        return None
    done = reading.span.number - (1 if reading.span.kind == "work" else 0)
    return done if done < timeline.steps else None


def _attempts(timeline: Timeline, tally: LaneTally, elapsed: int) -> Boxes:
    """A box a set, or where there are no sets a box an attempt; a slash is a miss."""
    shown = [
        (
            tried.number,
            ("" if tried.made else "/") + (plain(tried.load.amount) if tried.load else ""),
        )
        for tried in tally.attempts
    ]
    if timeline.steps <= 1:
        return Boxes((*(text or SIGNS["not given"].sign for _, text in shown), None), len(shown))
    latest = dict(shown)
    numbers = tuple(latest.get(n) for n in range(1, timeline.steps + 1))
    return Boxes(numbers, current_step(timeline, elapsed))
