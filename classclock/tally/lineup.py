"""Who stands in which lane of a piece: each alone, or in teams; in heats where there are many."""

from collections.abc import Collection, Mapping, Sequence
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
    *,
    gone: Collection[str] = (),
    been: Collection[str] = (),
    first_heat: int = 1,
) -> tuple[Lane, ...]:
    """The lanes of all heats that are to come, the first of them numbered `first_heat`.

    `choices` says by person what each modifies; a team does as its first member does.
    Above 26 lanes they run in heats of even size, and a key that two in one heat share is changed
    for the later one. Where equipment is shared, `places` says who begins where, and when. `teams`
    are those that were made for the segment; who is in none of them makes teams as planned.
    `people` are all who came. Their ids: who is `gone` takes no lane, their team goes on with the
    rest, and nobody gets their key; who has `been` in an earlier heat takes no other.
    """
    away = {*gone, *been}
    reserved = {person.key for person in people if person.id in gone}
    if places:
        placed = _placed(segment, people, choices, places, away=away, first_heat=first_heat)
        heats = sorted({lane.heat for lane in placed})
        by_heat = [[lane for lane in placed if lane.heat == heat] for heat in heats]
        return tuple(lane for lanes in by_heat for lane in _keys_apart(lanes, reserved))
    drawn_up = _teams(segment, people, teams, away)
    lanes = [_lane(team, choices.get(team[0].id, Choice())) for team in drawn_up]
    number = max(1, -(-len(lanes) // MOST_LANES))
    drawn: list[Lane] = []
    for heat in range(number):
        first, last = heat * len(lanes) // number, (heat + 1) * len(lanes) // number
        here = [replace(lane, heat=first_heat + heat) for lane in lanes[first:last]]
        drawn += _keys_apart(here, reserved)
    return tuple(drawn)


def _teams(
    segment: Segment, people: Sequence[Person], made: Groups, away: Collection[str]
) -> list[tuple[Person, ...]]:
    """As they were made, the others as they came; of each those who aren't away."""
    came = {person.id: person for person in people}
    teams = [tuple(came.pop(ident) for ident in team if ident in came) for team in made]
    size, rest = segment.teams or 1, tuple(came.values())
    teams += [rest[at : at + size] for at in range(0, len(rest), size)]
    here = (tuple(person for person in team if person.id not in away) for team in teams)
    return [team for team in here if team]


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
    *,
    away: Collection[str],
    first_heat: int,
) -> list[Lane]:
    """The lanes as places were given out; who came after that joins the last heat."""
    unplaced = {person.id: person for person in people}
    lanes = []
    for place in places:
        placed = [unplaced.pop(ident) for ident in place.members if ident in unplaced]
        team = tuple(person for person in placed if person.id not in away)
        if team:
            lane = _lane(team, choices.get(team[0].id, Choice()))
            lanes.append(_at(place, lane, first_heat))
    last = max((lane.heat for lane in lanes), default=first_heat)
    room = MOST_LANES - sum(lane.heat == last for lane in lanes)
    others = draw_lanes(segment, tuple(unplaced.values()), choices, been=away)
    for number, lane in enumerate(others):
        lanes.append(replace(lane, heat=last + (number >= room)))
    return lanes


def _at(place: Place, lane: Lane, first_heat: int) -> Lane:
    stations = max(len(place.options), len(lane.options))
    given = (*place.options, *(0,) * (stations - len(place.options)))
    options = tuple(option or lane.option(station) for station, option in enumerate(given))
    start = place.start_station or lane.start_station
    own = lane.options if any(place.options) else None
    heat = max(place.heat, first_heat)
    return replace(lane, heat=heat, start_station=start, options=options, own_options=own)


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
        portion=choice.portion,
    )


def _keys_apart(lanes: Sequence[Lane], reserved: Collection[str]) -> tuple[Lane, ...]:
    """Within one heat nobody else's key: whoever comes first keeps it.

    A reserved one is given only where the alphabet has no other left.
    """
    owned = {lane.key for lane in lanes}
    given: set[str] = set()
    apart: list[Lane] = []
    for lane in lanes:
        key = lane.key
        if not key or key in given:
            key = propose_key(lane.name, owned | given | set(reserved))
        if key in given:
            key = propose_key(lane.name, owned | given)
        given.add(key)
        apart.append(replace(lane, key=key))
    return tuple(apart)
