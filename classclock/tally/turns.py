"""Whose turn it is at a bar that several lanes share: it passes on at a made lift or a miss."""

from msgspec import Struct

from classclock.tally import events as ev
from classclock.tally.lane_tally import LaneTally
from classclock.tally.sheet import Sheet


class Turn(Struct, frozen=True):
    """Who lifts, who comes after, and who did before."""

    order: tuple[str, ...]
    """The ids of the lanes that still lift, the one whose turn it is first."""
    before: str | None
    """The lane that lifted last; None before the first lift."""

    @property
    def lane(self) -> str:
        """The one whose turn it is."""
        return self.order[0]


class _Lift(Struct, frozen=True, order=True):
    at: int
    number: int
    lane: str


def turns(sheet: Sheet) -> tuple[Turn, ...]:
    """The turn at each shared bar where somebody still lifts, in the order of `partners`.

    Whoever has stopped or done all sets is passed over. A set that is put right afterwards is no
    other lift.
    """
    if sheet.piece.counts_by != "load":
        return ()
    every = (_turn(sheet, group) for group in sheet.partners)
    return tuple(turn for turn in every if turn is not None)


def _turn(sheet: Sheet, group: tuple[str, ...]) -> Turn | None:
    here = [lane for lane in group if lane in sheet.tallies]
    last = max((lift for lane in here for lift in _lifts(sheet, lane)), default=None)
    first = 0 if last is None else here.index(last.lane) + 1
    in_turn = (*here[first:], *here[:first])
    order = tuple(lane for lane in in_turn if not _done(sheet, lane))
    return Turn(order, last.lane if last is not None else None) if order else None


def _done(sheet: Sheet, lane: str) -> bool:
    """Whether a lane has stopped, or has lifted in every set there is."""
    tally, sets = sheet.tallies[lane], sheet.timeline.steps
    return tally.out or (sets > 1 and len(set(_numbers(tally))) >= sets)


def _lifts(sheet: Sheet, lane: str) -> list[_Lift]:
    """Every lift of a lane that stands, made or missed; of each set the first time it was told."""
    tally = sheet.tallies[lane]
    entries = [
        entry
        for entry in sheet.ledgers.standing(lane)
        if isinstance(entry.event, ev.Tapped | ev.Lifted) and entry.number not in tally.uncounted
    ]
    sets_done = zip(entries, _numbers(tally), strict=False)
    first = {number: entry for entry, number in reversed(list(sets_done))}
    return [_Lift(entry.event.at, entry.number, lane) for entry in first.values()]


def _numbers(tally: LaneTally) -> list[int]:
    return [tried.number for tried in tally.attempts]
