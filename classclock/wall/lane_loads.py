"""What a lane is to lift in the set that is on, and in a rest in the set to come."""

from functools import lru_cache
from itertools import permutations

from msgspec import Struct

from classclock.clock.timeline import Timeline
from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.bar_picture import plate_labels
from classclock.strength.prescription import uses_a_bar
from classclock.strength.set_loads import own_loading
from classclock.tally.lane_tally import LaneTally
from classclock.tally.lanes import Lane
from classclock.tally.lineup import MOST_LANES
from classclock.tally.piece import Piece
from classclock.units.bars_and_plates import Equipment
from classclock.units.kept import Same
from classclock.units.loads import Load, plain
from classclock.wall.lane_bars import current_step
from classclock.wall.shared_bar import SharedBar

WAITS = "waits"
"""In place of the plates where it is somebody else's turn at the bar."""


class LiftShown(Struct, frozen=True):
    """Large, what is on the bar; and in words, where there is no room for that."""

    load: str = ""
    """Without its unit."""
    unit: str = ""
    plates: str = ""
    """Of one side: `20+5+1.25`. Of a bar that is shared what changes on it: `+10 -1.25`."""
    words: tuple[str, ...] = ()
    """`72.5 kg: 20 + 5 + 1.25` and what is shorter, the longest first."""


def lift_shown(
    piece: Piece,
    timeline: Timeline,
    tally: LaneTally,
    elapsed: int,
    equipment: Equipment | None,
    *,
    shared: SharedBar | None = None,
) -> LiftShown:
    """In a rest of the set to come. Of a bar that is shared: whose turn it is, what changes on it.

    Nothing where no load is planned, or no set is left. Without equipment plates aren't named.
    """
    if piece.counts_by != "load" or tally.out:
        return LiftShown()
    at = _set_to_lift(timeline, tally, elapsed, by_turns=shared is not None)
    if at is None:
        return LiftShown()
    load = piece.planned_load(tally.lane, at + 1)
    on_a_bar = equipment if uses_a_bar(piece.segment.lift or "") else None
    if shared is not None:
        return _by_turns(shared, load, on_a_bar)
    if load is None:
        return LiftShown()
    loading = own_loading(tally.lane.loads or (load,), at + 1, on_a_bar) if on_a_bar else None
    return _shown(load, _plates(loading), _with_plates(load, loading))


@lru_cache(maxsize=2 * MOST_LANES)
def widest_lift(
    of: Same[Piece], whose: Same[Lane], equipment: Same[Equipment | None], shared: SharedBar | None
) -> LiftShown:
    """The longest load, unit and plates that the lane may come to."""
    piece, lane = of.it, whose.it
    if piece.counts_by != "load":
        return LiftShown()
    planned = piece.planned_loads(lane)
    loads = [plain(load.amount) for load in planned if load is not None]
    units = [load.unit for load in planned if load is not None]
    on_a_bar = equipment.it if uses_a_bar(piece.segment.lift or "") else None
    plates = [WAITS] if shared is not None else []
    if on_a_bar is not None:
        own = (own_loading(planned, at, on_a_bar) for at in range(1, len(planned) + 1))
        plates += map(_plates, own)
        plates += _changes(shared, on_a_bar) if shared is not None else []
    load, unit, plate = (max(every, key=len, default="") for every in (loads, units, plates))
    return LiftShown(load, unit, plate)


def _changes(shared: SharedBar, equipment: Equipment) -> list[str]:
    """All that may ever be changed on the bar, in brief."""
    known = (load for every in shared.loads for load in every if load is not None)
    loads = dict.fromkeys(known)
    return [shared.change(one, other, equipment)[1] for one, other in permutations(loads, 2)]


def _shown(load: Load, plates: str, words: tuple[str, ...]) -> LiftShown:
    return LiftShown(plain(load.amount), load.unit, plates, words)


def _plates(loading: Loading | None) -> str:
    return "+".join(plate_labels(loading)) if loading is not None else ""


def _with_plates(load: Load, loading: Loading | None) -> tuple[str, ...]:
    if loading is None or not loading.plates:
        return (str(load),)
    labels = plate_labels(loading)
    return (f"{load}: {' + '.join(labels)}", f"{load}: {'+'.join(labels)}", str(load))


def _set_to_lift(
    timeline: Timeline, tally: LaneTally, elapsed: int, *, by_turns: bool
) -> int | None:
    """Which set comes next for the lane, from 0; None where none is left.

    By turns somebody who has lifted waits for the next set, though this one still runs.
    """
    if timeline.steps <= 1:
        return len(tally.attempts)
    at = current_step(timeline, elapsed)
    if at is None or not by_turns:
        return at
    done = {tried.number - 1 for tried in tally.attempts}
    return next((number for number in range(at, timeline.steps) if number not in done), None)


def _by_turns(shared: SharedBar, load: Load | None, equipment: Equipment | None) -> LiftShown:
    """`now 80 kg: on 10`; `80 kg after Ilse`; the last of them says nothing of the other's load."""
    planned = str(load) if load is not None else ""
    amount, unit = (plain(load.amount), load.unit) if load is not None else ("", "")
    if shared.turn == "waits":
        words = (f"{planned} after {shared.after}".strip(), planned or WAITS)
        return LiftShown(amount, unit, WAITS, words)
    now = f"now {planned}".strip()
    if load is None or equipment is None:
        return LiftShown(amount, unit, "", (now,))
    change, brief = shared.change_to(load, equipment)
    if change:
        shorter = f"now {amount} {brief}" if brief else f"{now}, as it is"
        return _shown(load, brief or "as it is", (f"{now}: {change}", shorter, now))
    bar = shared.bar(equipment)
    loading = load_bar(load, bar, equipment).exact if bar is not None else None
    whole = tuple(f"now {words}" for words in _with_plates(load, loading))
    return _shown(load, _plates(loading), whole)
