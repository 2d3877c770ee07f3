"""Who shares with whom and who starts where, in lines, where equipment or bars are shared."""

from collections.abc import Iterator

from classclock.live.standing_class import StandingClass
from classclock.tally.lanes import Lane
from classclock.tally.lineup import Groups, partners_in
from classclock.tally.piece import Piece
from classclock.units.printable import printable
from classclock.wall.modification import modification, starts_at


def start_lines(live: StandingClass) -> tuple[str, ...]:
    """For each heat and station where somebody starts, and for each option taken, who it is."""
    record, index = live.record, live.record.chosen.segment
    shared, teams = record.shared.get(index), record.teams.get(index)
    partners = record.partners.get(index, ())
    if shared is None and teams is None and not partners:
        return ()
    piece, lanes = Piece.of(record.segment, record.unit), live.lineup()
    groups: dict[str, list[str]] = {}
    for together in _together(lanes, partners):
        named = " + ".join(f"{lane.key.upper()} {printable(lane.name)}" for lane in together)
        groups.setdefault(_where(piece, together[0], lanes), []).append(named)
    how = shared.way if shared is not None else f"teams {teams.how}" if teams is not None else ""
    where = (f"{where}: {', '.join(who)}" for where, who in groups.items())
    return tuple(line for line in (how, *where) if line)


def _together(lanes: tuple[Lane, ...], partners: Groups) -> Iterator[tuple[Lane, ...]]:
    """The lanes in their order, those who share a bar at once."""
    by_id = {lane.id: lane for lane in lanes}
    heats = {lane.heat for lane in lanes}
    sharing = {group[0]: group for heat in heats for group in partners_in(lanes, heat, partners)}
    others = {ident for group in sharing.values() for ident in group[1:]}
    for lane in lanes:
        if lane.id not in others:
            yield tuple(by_id[ident] for ident in sharing.get(lane.id, (lane.id,)))


def _where(piece: Piece, lane: Lane, lanes: tuple[Lane, ...]) -> str:
    return ", ".join(_parts(piece, lane, lanes)) or "together"


def _parts(piece: Piece, lane: Lane, lanes: tuple[Lane, ...]) -> Iterator[str]:
    if max(one.heat for one in lanes) > 1:
        yield f"heat {lane.heat}"
    if start := starts_at(piece, lane, lanes):
        yield f"at {start}"
    if any(one.modified for one in lanes):
        yield modification(piece, lane)
