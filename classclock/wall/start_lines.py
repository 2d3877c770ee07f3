"""Who starts where, in lines, where equipment is shared."""

from collections.abc import Iterator

from classclock.live.live_class import LiveClass
from classclock.tally.lanes import Lane
from classclock.tally.piece import Piece
from classclock.units.printable import printable
from classclock.wall.modification import modification, starts_at


def start_lines(live: LiveClass) -> tuple[str, ...]:
    """For each heat and station where somebody starts, and for each option taken, who it is."""
    record = live.record
    shared = record.shared.get(record.chosen.segment)
    if shared is None:
        return ()
    piece, lanes = Piece.of(record.segment, record.unit), live.lineup()
    groups: dict[str, list[str]] = {}
    for lane in lanes:
        groups.setdefault(_where(piece, lane, lanes), []).append(
            f"{lane.key.upper()} {printable(lane.name)}"
        )
    return (shared.way, *(f"{where}: {', '.join(who)}" for where, who in groups.items()))


def _where(piece: Piece, lane: Lane, lanes: tuple[Lane, ...]) -> str:
    return ", ".join(_parts(piece, lane, lanes)) or "together"


def _parts(piece: Piece, lane: Lane, lanes: tuple[Lane, ...]) -> Iterator[str]:
    if max(one.heat for one in lanes) > 1:
        yield f"heat {lane.heat}"
    if start := starts_at(piece, lane, lanes):
        yield f"at {start}"
    if any(one.modified for one in lanes):
        yield modification(piece, lane)
