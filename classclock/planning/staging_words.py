"""A way to share the equipment, in words."""

from collections.abc import Sequence

from classclock.plan.model import Segment
from classclock.planning.equipment import Short
from classclock.planning.staging import PARTNERS, Staging, by_turns
from classclock.units.printable import printable
from classclock.units.spelling import plural
from classclock.units.times import show_time


def count_words(count: int, piece: str) -> str:
    """`1 box`, `4 boxes`."""
    return f"{count} {printable(piece if count == 1 else plural(piece))}"


def short_words(short: Short) -> str:
    """`12 boxes are needed at once, 4 are here`."""
    needed = count_words(short.needed, short.piece)
    there = f"{short.there} {'is' if short.there == 1 else 'are'} here"
    return f"{needed} {'is' if short.needed == 1 else 'are'} needed at once, {there}"


def staging_words(way: Staging, segment: Segment, *, brief: bool = False) -> str:
    """What to do, and what it costs: `3 heats of 4; 38:20 longer`.

    `brief` leaves out how many start where.
    """
    return f"{', '.join(_devices(way, segment, brief=brief))}; {_cost(way)}"


def spare_words(way: Staging) -> str:
    """Where a staggered start leaves nothing to spare: `no rower to spare, so someone may wait`."""
    if not way.no_spare:
        return ""
    pieces = " and ".join(f"no {printable(piece)}" for piece in way.no_spare)
    return f"{pieces} to spare, so someone may wait"


def _devices(way: Staging, segment: Segment, *, brief: bool) -> Sequence[str]:
    parts = []
    if way.team == PARTNERS and segment.teams is None:
        turns = "turn by turn" if by_turns(segment) else "one works while the other rests"
        parts.append(f"in pairs, {turns}")
    if len(way.heats) > 1:
        parts.append(f"{len(way.heats)} heats of {_sizes(way)}")
    if way.staggered:
        first = " in the first heat" if len(set(way.heats)) > 1 else ""
        where = "" if brief else f": {_starts(way.heats[0], segment)}{first}"
        parts.append(f"start at different stations{where}")
    for modified in way.modified:
        station = segment.station[modified.station]
        option = printable(station.options[modified.option - 1].name)
        instead = printable(station.movement)
        parts.append(f"{modified.lanes} take {option} in place of {instead}")
    return parts


def _sizes(way: Staging) -> str:
    sizes = sorted({len(heat) for heat in way.heats}, reverse=True)
    return " or ".join(map(str, sizes))


def _starts(heat: Sequence[int], segment: Segment) -> str:
    at = [(heat.count(place), station.movement) for place, station in enumerate(segment.station)]
    return ", ".join(f"{lanes} at {printable(movement)}" for lanes, movement in at if lanes)


def _cost(way: Staging) -> str:
    if not way.extra:
        return "no longer"
    longer = "longer" if way.extra > 0 else "shorter"
    return f"{show_time(abs(way.extra))} {longer}"


def who_starts_where(
    way: Staging, segment: Segment, names: Sequence[str]
) -> tuple[tuple[str, str], ...]:
    """For each heat and station where somebody starts, what to call it and who they are.

    `names` are the people in their order. Nothing where all start together, each alone, nor where
    who shares a bar is yet to be proposed.
    """
    team = way.team
    lanes = [" + ".join(names[at : at + team]) for at in range(0, len(names), team)]
    if team == PARTNERS and by_turns(segment):
        return ()
    if len(way.heats) == 1 and not way.staggered and team == (segment.teams or 1):
        return ()
    lines = []
    lane = iter(lanes)
    for number, heat in enumerate(way.heats, start=1):
        places: dict[int, list[str]] = {}
        for place in heat:
            places.setdefault(place, []).append(next(lane))
        for place, who in places.items():
            parts = [f"heat {number}"] if len(way.heats) > 1 else []
            parts += [segment.station[place].movement] if way.staggered else []
            lines.append((", ".join(parts) or "pairs", ", ".join(who)))
    return tuple(lines)
