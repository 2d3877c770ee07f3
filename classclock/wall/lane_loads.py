"""What a lane is to lift in the set that is on, in few words and in fewer."""

from classclock.clock.timeline import Timeline
from classclock.strength.bar_picture import plate_labels
from classclock.strength.prescription import uses_a_bar
from classclock.strength.set_loads import own_loading
from classclock.tally.lane_tally import LaneTally
from classclock.tally.piece import Piece
from classclock.units.bars_and_plates import Equipment
from classclock.wall.lane_bars import current_step


def planned_words(
    piece: Piece,
    timeline: Timeline,
    tally: LaneTally,
    elapsed: int,
    equipment: Equipment | None,
) -> tuple[str, ...]:
    """`72.5 kg: 20 + 5 + 1.25` and what is shorter, the longest first; in a rest the set to come.

    Empty where no load is planned, or no set is left. Without equipment plates aren't named.
    """
    lane = tally.lane
    if piece.counts_by != "load" or tally.out:
        return ()
    at = current_step(timeline, elapsed) if timeline.steps > 1 else len(tally.attempts)
    if at is None:
        return ()
    load = piece.planned_load(lane, at + 1)
    if load is None:
        return ()
    bar = equipment is not None and uses_a_bar(piece.segment.lift or "")
    loading = own_loading(lane.loads or (load,), at + 1, equipment) if bar and equipment else None
    if loading is None or not loading.plates:
        return (str(load),)
    labels = plate_labels(loading)
    return (f"{load}: {' + '.join(labels)}", f"{load}: {'+'.join(labels)}", str(load))
