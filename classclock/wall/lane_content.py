"""What one lane of the wall says, as plain values."""

from collections.abc import Mapping
from functools import lru_cache

from msgspec import Struct
from msgspec.structs import replace

from classclock.clock.timeline import Timeline
from classclock.records.goals import Goal
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.lineup import MOST_LANES
from classclock.tally.piece import Piece
from classclock.tally.scores.on_for import Earlier, OnFor, on_for
from classclock.tally.scores.scores import places
from classclock.tally.sheet import Sheet
from classclock.tally.signs import SIGNS
from classclock.units.bars_and_plates import Equipment
from classclock.units.kept import Same
from classclock.units.loads import plain
from classclock.units.printable import printable
from classclock.units.times import show_time
from classclock.wall.hue import Hue
from classclock.wall.lane_bars import LaneBar, bar_of
from classclock.wall.lane_loads import lift_shown, widest_lift
from classclock.wall.modification import modification, rung_words, starts_at, widest_rung
from classclock.wall.shared_bar import SharedBar, TurnNow, bars_shared, shared_bars


class LaneRoom(Struct, frozen=True):
    """The widest that a lane may come to say: room is kept for it, so that nothing moves."""

    tallies: tuple[str, ...] = ("12+12", "12")
    """Where there is none for the first, there is for the next."""
    rung: str = ""
    load: str = ""
    unit: str = ""
    plates: str = ""
    turns: bool = False
    """Whether it shares a bar by turns, of which there is something to say."""


class LaneContent(Struct, frozen=True):
    key: str
    name: str
    tally: str
    short_tally: str
    """Where there is no room for the tally with its odd reps."""
    rank: str = ""
    modification: str = ""
    planned: tuple[str, ...] = ()
    """The load of the set that is on, the longest words first."""
    split: str = ""
    on_for: str = ""
    against: str = ""
    standing: Hue = "first"
    sign: str = ""
    """What isn't sure about it, in one sign."""
    doubtful: bool = False
    """Whether that is an entry in doubt, and not only a call that may be missing."""
    out: bool = False
    bar: LaneBar | None = None
    selected: bool = False
    turn: TurnNow = ""
    """Whose turn it is at a bar that the lane shares."""
    start: str = ""
    """Where its rounds begin, which says when one is full: `from row`."""
    rung: str = ""
    """What the round in progress takes where rounds differ: `now 12`."""
    load: str = ""
    """What is lifted in the set that is on, or to come, without its unit."""
    unit: str = ""
    plates: str = ""
    """What goes on the bar for it, or changes on it: `20+5+1.25`."""
    room: LaneRoom = LaneRoom()


class LaneAt(Struct, frozen=True):
    """All that a lane's content comes from, at one moment."""

    piece: Same[Piece]
    timeline: Same[Timeline]
    lanes: Same[tuple[Lane, ...]]
    """All of the heat."""
    equipment: Same[Equipment | None]
    tally: Same[LaneTally]
    earlier: Same[Earlier | None]
    """The own best run to compare with."""
    goal: Same[Goal | None]
    """What it works towards."""
    elapsed: int
    """Milliseconds of the piece."""
    rank: int | None
    settled: bool
    selected: bool
    shared: SharedBar | None = None
    """The bar that it shares by turns, as long as somebody lifts with it."""
    shares: SharedBar | None = None
    """The same for the whole piece."""


class LaneContents:
    """The lanes of the wall; those of which nothing has changed are taken as they were.

    What only time changes, the ribbon's end and what a lane is on for, follows whole seconds.
    """

    def __init__(self, equipment: Equipment | None = None) -> None:
        """With the club's equipment planned loads are shown with their plates."""
        self._equipment = Same(equipment)
        self._content = lru_cache(maxsize=MOST_LANES)(lane_content)

    def at(
        self,
        sheet: Sheet,
        heats: tuple[Sheet, ...],
        now: int,
        *,
        selected: str | None = None,
        earlier: Mapping[str, Earlier] | None = None,
        goals: Mapping[str, Goal] | None = None,
    ) -> tuple[LaneContent, ...]:
        """The lanes in their places. `heats` are all heats of the piece, ranked together.

        `now` is the class's moment. `earlier` gives, by lane, the own best run to compare with,
        `goals` what it works towards.
        """
        ranked = places(heats)
        elapsed = max(0, sheet.elapsed(now))
        if elapsed < sheet.timeline.total:
            elapsed -= elapsed % 1000
        runs, aims = earlier or {}, goals or {}
        bars, shares = shared_bars(sheet), bars_shared(sheet)
        piece, timeline, lanes = Same(sheet.piece), Same(sheet.timeline), Same(sheet.lanes)
        return tuple(
            self._content(
                LaneAt(
                    piece=piece,
                    timeline=timeline,
                    lanes=lanes,
                    equipment=self._equipment,
                    tally=Same(tally),
                    earlier=Same(runs.get(lane.id)),
                    goal=Same(aims.get(lane.id)),
                    elapsed=elapsed,
                    rank=None if tally.nothing_done else ranked[lane.id],
                    settled=sheet.settled,
                    selected=lane.id == selected,
                    shared=bars.get(lane.id),
                    shares=shares.get(lane.id),
                )
            )
            for lane in sheet.lanes
            for tally in [sheet.tallies[lane.id]]
        )


def lane_content(at: LaneAt) -> LaneContent:
    """What the lane says then."""
    piece, timeline, tally = at.piece.it, at.timeline.it, at.tally.it
    doubts = () if at.settled else tuple(one.doubt for one in tally.doubted)
    missed = tally.asks_missed
    start = starts_at(piece, tally.lane, at.lanes.it)
    lift = lift_shown(piece, timeline, tally, at.elapsed, at.equipment.it, shared=at.shared)
    content = LaneContent(
        key=tally.lane.key,
        name=printable(tally.lane.name),
        tally=_tally(piece, tally),
        short_tally=_short_tally(piece, tally),
        rank="" if at.rank is None else ordinal(at.rank),
        modification=modification(piece, tally.lane),
        planned=lift.words,
        split=_split(tally),
        sign=SIGNS[doubts[0]].sign if doubts else SIGNS["missed one"].sign if missed else "",
        doubtful=bool(doubts),
        out=tally.out,
        bar=bar_of(piece, timeline, tally, at.elapsed, at.goal.it),
        selected=at.selected,
        turn=at.shared.turn if at.shared is not None else "",
        start=f"from {start}" if start else "",
        rung=rung_words(piece, tally),
        load=lift.load,
        unit=lift.unit,
        plates=lift.plates,
        room=_room(at),
    )
    earlier = at.earlier.it
    outlook = on_for(piece, tally, elapsed=at.elapsed, cap=timeline.total, earlier=earlier)
    return _with_outlook(content, tally, outlook)


def _room(at: LaneAt) -> LaneRoom:
    piece, lane = at.piece.it, at.tally.it.lane
    lift = widest_lift(at.piece, Same(lane), at.equipment, at.shares)
    tallies = _widest_tallies(piece, at.timeline.it)
    turns, rung = at.shares is not None, widest_rung(piece, lane)
    return LaneRoom(tallies, rung, lift.load, lift.unit, lift.plates, turns)


def _widest_tallies(piece: Piece, timeline: Timeline) -> tuple[str, ...]:
    match piece.counts_by:
        case "rounds":
            finish = show_time(timeline.total) if piece.can_finish else "12"
            return (finish,) if piece.count == "finish" else ("12+12", finish)
        case "load":
            return ("102.5",)
        case _:
            return ("128",)


def _with_outlook(content: LaneContent, tally: LaneTally, outlook: OnFor | None) -> LaneContent:
    if tally.stopped is not None:
        return replace(content, on_for="stopped")
    if tally.finish is not None:
        return replace(content, on_for="done")
    if outlook is None:
        return content
    ahead = outlook.ahead
    time = outlook.finish
    return replace(
        content,
        on_for=f"on for {outlook.rounds if time is None else show_time(-(-time // 1000) * 1000)}",
        against="" if ahead is None else against_words(ahead),
        standing=_standing(ahead),
    )


def against_words(ahead: int) -> str:
    """`+6` is six reps ahead of the own best, `-9` nine behind."""
    return f"{ahead:+d}" if ahead else "level"


def _standing(ahead: int | None) -> Hue:
    if ahead is None:
        return "first"
    if ahead == 0:
        return "level"
    return "ahead" if ahead > 0 else "behind"


def ordinal(rank: int) -> str:
    """`1st`, `2nd`, `11th`."""
    last = 0 if 10 <= rank % 100 <= 20 else rank % 10
    return f"{rank}{ {1: 'st', 2: 'nd', 3: 'rd'}.get(last, 'th') }"


def _tally(piece: Piece, tally: LaneTally) -> str:
    odd = tally.odd if tally.odd is not None else tally.odd_floor
    if piece.counts_by == "rounds" and tally.finish is None and odd and piece.count != "finish":
        return f"{len(tally.rounds)}+{odd}"
    return _short_tally(piece, tally)


def _short_tally(piece: Piece, tally: LaneTally) -> str:
    match piece.counts_by:
        case "rounds" if tally.finish is not None:
            return show_time(-(-tally.finish // 1000) * 1000)
        case "rounds" if piece.count == "finish":
            return ""
        case "rounds":
            return str(len(tally.rounds))
        case "intervals":
            return _interval_tally(piece, tally)
        case "load":
            return plain(tally.heaviest.amount) if tally.heaviest is not None else ""
        case _:
            return str(tally.total_reps)


def _interval_tally(piece: Piece, tally: LaneTally) -> str:
    known = [reps for reps in tally.intervals if reps is not None]
    match piece.interval_rule:
        case "lowest":
            return str(min(known)) if known else ""
        case "best":
            return str(max(known)) if known else ""
        case _:
            return str(sum(known))


def _split(tally: LaneTally) -> str:
    split = tally.rounds[-1].split if tally.rounds else None
    return "" if split is None else show_time(split)
