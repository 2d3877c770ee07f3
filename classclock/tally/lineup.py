"""Who stands in which lane of a piece: each alone, or in teams; in heats where there are many."""

from collections.abc import Mapping, Sequence
from typing import TYPE_CHECKING

from msgspec.structs import replace

from classclock.plan.model import Segment
from classclock.tally.lane_keys import propose_key
from classclock.tally.lanes import Choice, Lane, Person, Place

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads

MOST_LANES = 26
"""A lane needs a letter a to z of its own."""

Groups = tuple[tuple[str, ...], ...]
"""People's ids, group by group."""


def draw_lanes(
    segment: Segment,
    people: Sequence[Person],
    choices: Mapping[str, Choice],
    places: Sequence[Place] = (),
    teams: Groups = (),
) -> tuple[Lane, ...]:
    """The lanes of all heats.

    `choices` says by person what each modifies; a team does as its first member does.
    Above 26 lanes they run in heats of even size, and a key that two in one heat share is changed
    for the later one. Where equipment is shared, `places` says who begins where, and when. `teams`
    are those that were made for the segment; who is in none of them makes teams as planned.
    """
    if places:
        return _placed(segment, people, choices, places)
    drawn_up = _teams(segment, people, teams)
    lanes = [_lane(team, choices.get(team[0].id, Choice())) for team in drawn_up]
    heats = max(1, -(-len(lanes) // MOST_LANES))
    drawn: list[Lane] = []
    for heat in range(heats):
        first, last = heat * len(lanes) // heats, (heat + 1) * len(lanes) // heats
        drawn += _keys_apart([replace(lane, heat=heat + 1) for lane in lanes[first:last]])
    return tuple(drawn)


def _teams(segment: Segment, people: Sequence[Person], made: Groups) -> list[tuple[Person, ...]]:
    """As they were made, as far as their people are here; the others as they came."""
    here = {person.id: person for person in people}
    teams = [tuple(here.pop(ident) for ident in team if ident in here) for team in made]
    size, rest = segment.teams or 1, tuple(here.values())
    teams += [rest[at : at + size] for at in range(0, len(rest), size)]
    return [team for team in teams if team]


def partners_together(lanes: Sequence[Lane], partners: Groups) -> tuple[Lane, ...]:
    """The same lanes of each heat, those who share a bar beside each other in their turns."""
    group_of = {ident: group for group in partners for ident in group}
    alone = {lane.id: lane for lane in lanes if len(lane.members) == 1}
    ordered: dict[str, Lane] = {}
    for lane in lanes:
        for ident in group_of.get(lane.id, ()) if lane.id in alone else ():
            if ident in alone and alone[ident].heat == lane.heat:
                ordered.setdefault(ident, alone[ident])
        ordered.setdefault(lane.id, lane)
    return tuple(ordered.values())


def partners_in(lanes: Sequence[Lane], heat: int, partners: Groups) -> Groups:
    """Which lanes of a heat share a bar: those of the groups who are here, two or more."""
    alone = {lane.id for lane in lanes if lane.heat == heat and len(lane.members) == 1}
    here = (tuple(ident for ident in group if ident in alone) for group in partners)
    return tuple(group for group in here if len(group) > 1)


def _placed(
    segment: Segment,
    people: Sequence[Person],
    choices: Mapping[str, Choice],
    places: Sequence[Place],
) -> tuple[Lane, ...]:
    """The lanes as places were given out; who came after that joins the last heat."""
    here = {person.id: person for person in people}
    lanes = []
    for place in places:
        team = tuple(here.pop(ident) for ident in place.members if ident in here)
        if team:
            lane = _lane(team, choices.get(team[0].id, Choice()))
            lanes.append(_at(place, lane))
    last = max((lane.heat for lane in lanes), default=1)
    room = MOST_LANES - sum(lane.heat == last for lane in lanes)
    for number, lane in enumerate(draw_lanes(segment, tuple(here.values()), choices)):
        lanes.append(replace(lane, heat=last + (number >= room)))
    heats = sorted({lane.heat for lane in lanes})
    return tuple(
        lane for heat in heats for lane in _keys_apart([one for one in lanes if one.heat == heat])
    )


def _at(place: Place, lane: Lane) -> Lane:
    stations = max(len(place.options), len(lane.options))
    given = (*place.options, *(0,) * (stations - len(place.options)))
    options = tuple(option or lane.option(station) for station, option in enumerate(given))
    start = place.start_station or lane.start_station
    own = lane.options if any(place.options) else None
    return replace(lane, heat=place.heat, start_station=start, options=options, own_options=own)


def give_loads(lanes: Sequence[Lane], segment: int, loads: "ClassLoads") -> tuple[Lane, ...]:
    """The lanes with what each is to lift in the plan's segment of this number.

    A team lifts what its members choose together: records are each one's own.
    """
    return tuple(_with_loads(lane, segment, loads) for lane in lanes)


def _with_loads(lane: Lane, segment: int, loads: "ClassLoads") -> Lane:
    alone = len(lane.members) == 1
    planned = loads.of(segment, lane.members[0], lane.name, lane.load) if alone else None
    if planned is None:
        return lane
    return replace(lane, loads=planned.loads, heaviest=planned.heaviest)


def _lane(team: tuple[Person, ...], choice: Choice) -> Lane:
    return Lane(
        id=team[0].id,
        name=" + ".join(person.name for person in team),
        key=team[0].key,
        members=tuple(person.id for person in team),
        options=choice.options,
        load=choice.load,
        start_station=choice.start_station,
    )


def _keys_apart(lanes: Sequence[Lane]) -> tuple[Lane, ...]:
    """Within one heat nobody else's key: whoever comes first keeps it."""
    owned = {lane.key for lane in lanes}
    given: set[str] = set()
    apart: list[Lane] = []
    for lane in lanes:
        free = lane.key and lane.key not in given
        key = lane.key if free else propose_key(lane.name, owned | given)
        given.add(key)
        apart.append(replace(lane, key=key))
    return tuple(apart)
