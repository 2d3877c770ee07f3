"""What a lane is to lift in the set that is on, in few words and in fewer."""

from classclock.clock.timeline import Timeline
from classclock.strength.bar_loading import Loading, load_bar
from classclock.strength.bar_picture import plate_labels
from classclock.strength.prescription import uses_a_bar
from classclock.strength.set_loads import own_loading
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load, plain
from classclock.wall.lane_bars import current_step
from classclock.wall.shared_bar import SharedBar


def planned_words(
    piece: Piece,
    timeline: Timeline,
    tally: LaneTally,
    elapsed: int,
    equipment: Equipment | None,
    *,
    shared: SharedBar | None = None,
) -> tuple[str, ...]:
    """`72.5 kg: 20 + 5 + 1.25` and what is shorter, the longest first; in a rest the set to come.

    Of a bar that is shared: whose turn it is, and what changes on it. Empty where no load is
    planned, or no set is left. Without equipment plates aren't named.
    """
    if piece.counts_by != "load" or tally.out:
        return ()
    at = _set_to_lift(timeline, tally, elapsed, by_turns=shared is not None)
    if at is None:
        return ()
    load = piece.planned_load(tally.lane, at + 1)
    if shared is not None:
        return _by_turns(shared, load, equipment if uses_a_bar(piece.segment.lift or "") else None)
    if load is None:
        return ()
    bar = equipment is not None and uses_a_bar(piece.segment.lift or "")
    loading = (
        own_loading(tally.lane.loads or (load,), at + 1, equipment) if bar and equipment else None
    )
    return _with_plates(load, loading)


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


def _by_turns(shared: SharedBar, load: Load | None, equipment: Equipment | None) -> tuple[str, ...]:
    """`now 80 kg: on 10`; `80 kg after Ilse`; the last of them says nothing of the other's load."""
    planned = str(load) if load is not None else ""
    if shared.turn == "waits":
        return (f"{planned} after {shared.after}".strip(), planned or "waits")
    now = f"now {planned}".strip()
    if load is None or equipment is None:
        return (now,)
    change, brief = shared.change_to(load, equipment)
    if change:
        shorter = f"now {plain(load.amount)} {brief}" if brief else f"{now}, as it is"
        return (f"{now}: {change}", shorter, now)
    bar = shared.bar(equipment)
    loading = load_bar(load, bar, equipment).exact if bar is not None else None
    return tuple(f"now {words}" for words in _with_plates(load, loading))
