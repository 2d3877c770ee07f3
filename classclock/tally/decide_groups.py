"""Who shares a bar and who a tally, answered: events, or a refusal that says what to do."""

from collections.abc import Iterable

from msgspec import Struct
from msgspec.structs import replace

from classclock.tally import events as ev
from classclock.tally.class_lineup import all_heats
from classclock.tally.lanes import Sharing, Teams
from classclock.tally.lineup import Groups
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.refusal import Refusal


class SharedWay(Struct, frozen=True):
    """How a segment is shared; nothing in it: as planned."""

    sharing: Sharing | None = None
    """Where equipment is short."""
    partners: Groups = ()
    """Who shares a bar, turn by turn."""
    teams: Teams | None = None
    """Who shares a tally; None: as the plan has it."""
    seed: int | None = None
    """What the teams were drawn with by lot."""


AS_PLANNED = SharedWay()
_STARTED = Refusal("this piece has been started: it goes on as it began")
_NOT_HERE = Refusal("whoever shares has to be here: ctrl+t says who shares with whom")
_TWICE = Refusal("nobody is in two groups: put each in one")

_BY_HAND = ", then changed by hand"


def decide_way(
    record: ClassRecord, segment: int, way: SharedWay, at: int
) -> tuple[ev.Event, ...] | Refusal:
    """All at once: equipment, bars and tallies shared in this way and in no other."""
    if _started(record, segment):
        return _STARTED
    for groups in (way.partners, way.teams.groups if way.teams is not None else ()):
        if wrong := _wrong(record, groups):
            return wrong
    made: list[ev.Event] = []
    if way.sharing != record.shared.get(segment):
        made.append(ev.EquipmentShared(at, segment, way.sharing))
    if way.partners != record.partners.get(segment, ()):
        made.append(ev.PartnersSet(at, segment, way.partners))
    if way.teams != record.teams.get(segment):
        groups, how = (way.teams.groups, way.teams.how) if way.teams is not None else ((), "")
        made.append(ev.TeamsSet(at, segment, groups, how, way.seed))
    return tuple(made)


def decide_swap(
    record: ClassRecord, first: str, second: str, at: int
) -> tuple[ev.Event, ...] | Refusal:
    """Two people change places in the partners or teams of the segment on the board.

    The same again puts them back: in one group they change turns.
    """
    segment = record.chosen.segment
    if _started(record, segment):
        return _STARTED
    if first == second:
        return Refusal("> and two letters: those who change places")
    names = {person.id: person.name for person in record.here}
    if first not in names or second not in names:
        return _NOT_HERE
    swapped = {first: second, second: first}
    made = tuple(_swapped_everywhere(record, segment, swapped, at))
    if made:
        return made
    lanes = all_heats(record, None)
    if all(len(lane.members) == 1 for lane in lanes):
        return Refusal(
            f"{names[first]} and {names[second]} share with nobody here: ctrl+t makes partners"
        )
    groups = _swapped(tuple(lane.members for lane in lanes), swapped)
    return (ev.TeamsSet(at, segment, groups, _by_hand("as they came")),)


def _swapped_everywhere(
    record: ClassRecord, segment: int, swapped: dict[str, str], at: int
) -> Iterable[ev.Event]:
    """Where partners, teams or places have been set and name one of the two."""
    partners = record.partners.get(segment, ())
    if (changed := _swapped(partners, swapped)) != partners:
        yield ev.PartnersSet(at, segment, changed)
    teams = record.teams.get(segment)
    if teams is not None and (groups := _swapped(teams.groups, swapped)) != teams.groups:
        yield ev.TeamsSet(at, segment, groups, _by_hand(teams.how))
    sharing = record.shared.get(segment)
    if sharing is not None and (other := _in_other_places(sharing, swapped)) != sharing:
        yield ev.EquipmentShared(at, segment, other)


def _in_other_places(sharing: Sharing, swapped: dict[str, str]) -> Sharing:
    places = tuple(
        replace(place, members=tuple(swapped.get(one, one) for one in place.members))
        for place in sharing.places
    )
    if places == sharing.places:
        return sharing
    return Sharing(_by_hand(sharing.way), places)


def _by_hand(words: str) -> str:
    """What was said of it, and that it is so no longer."""
    return f"{words.removesuffix(_BY_HAND)}{_BY_HAND}"


def _swapped(groups: Groups, swapped: dict[str, str]) -> Groups:
    return tuple(tuple(swapped.get(one, one) for one in group) for group in groups)


def _wrong(record: ClassRecord, groups: Groups) -> Refusal | None:
    named = [ident for group in groups for ident in group]
    if not {person.id for person in record.here}.issuperset(named):
        return _NOT_HERE
    return _TWICE if len(set(named)) < len(named) else None


def _started(record: ClassRecord, segment: int) -> bool:
    return bool(record.heats(RunKey(segment, record.attempts.get(segment, 1))))
