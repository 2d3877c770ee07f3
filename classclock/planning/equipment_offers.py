"""What is short for the people of a class, and the ways to share it: for the board, and before.

Loaded only where a club has counted its equipment.
"""

from collections import Counter
from collections.abc import Mapping, Sequence
from functools import lru_cache, partial

from msgspec import Struct

from classclock.plan.model import Plan, Segment, is_piece
from classclock.plan.movements.library import Library
from classclock.plan.settings.club import Club
from classclock.planning.equipment import Need, Short, inventory_of, most_at_once, station_needs
from classclock.planning.equipment_check import NOTHING_FITS, Room, way_words
from classclock.planning.sharing import partners_sharing, sharing_of
from classclock.planning.staging import PARTNERS, Staging, by_turns, propose_staging
from classclock.planning.staging_words import short_words, staging_words
from classclock.planning.teams import as_they_came, team_sizes
from classclock.tally.decide_groups import SharedWay
from classclock.tally.lanes import Choice, Lane, Person
from classclock.tally.lineup import draw_lanes
from classclock.tally.record import ClassRecord
from classclock.units.kept import Same

MOST_WAYS = 9
"""A digit chooses one."""
_MOST_SEGMENTS = 60
"""As many as a plan has at most; who is here asks for all of them at every key."""


class Way(Struct, frozen=True):
    """A way to share; `words` say what it costs the class too."""

    words: str
    brief: str
    """Without the rest of the hour, for a small window."""
    shared: SharedWay

    @property
    def by_partners(self) -> bool:
        """Whether people share a bar in it, each with a tally of their own."""
        return bool(self.shared.partners)


class Offer(Struct, frozen=True):
    """A segment in which something is short or people share, and the ways to do it."""

    segment: int
    name: str
    people: int
    short: str
    """`12 boxes are needed at once, 4 are here`, piece by piece; empty where nothing is short."""
    ways: tuple[Way, ...]
    otherwise: str
    """What to do where there is no way; empty where there is one."""
    planned: str = "all start together, as planned"
    """What there is without any of the ways."""


class EquipmentOffers:
    """The offers for whoever is here; one for each segment is kept."""

    def __init__(self, club: Club, library: Library) -> None:
        """`library` says what each movement needs."""
        room = Room(0, (), inventory_of(club), library, club.class_length)
        self._offer = lru_cache(maxsize=_MOST_SEGMENTS)(partial(_offer_for, room))

    def of(
        self, plan: Plan, segment: int, people: Sequence[Person], choices: Mapping[str, Choice]
    ) -> Offer | None:
        """The offer for these people, each with what they modify; None where nothing is short."""
        chosen = tuple(choices.get(person.id) for person in people)
        return self._offer(Same(plan), segment, tuple(people), chosen)

    def on_the_board(self, record: ClassRecord) -> Offer | None:
        """The same in the segment on the board, until it has begun."""
        index = record.chosen.segment
        if record.closed or record.heats(record.chosen):
            return None
        choices = {person.id: record.choice(person.id, index) for person in record.here}
        return self.of(record.plan, index, record.here, choices)


def _offer_for(
    room: Room,
    whole: Same[Plan],
    index: int,
    people: tuple[Person, ...],
    chosen: tuple[Choice | None, ...],
) -> Offer | None:
    """What is short in the plan's segment of this number, as its people modify it."""
    plan, segment = whole.it, whole.it.segment[index]
    choices = {
        person.id: choice
        for person, choice in zip(people, chosen, strict=True)
        if choice is not None
    }
    lanes = draw_lanes(segment, people, choices)
    short = _short(segment, lanes, room)
    if not short:
        return None
    # Only a piece has lanes that can begin elsewhere, or later.
    ways = (
        propose_staging(segment, len(people), room.inventory, room.library)[:MOST_WAYS]
        if is_piece(segment)
        else ()
    )
    ids = [person.id for person in people]
    return Offer(
        segment=index,
        name=segment.name,
        people=len(people),
        short="; ".join(map(short_words, short)),
        ways=tuple(
            Way(
                way_words(plan, segment, way, room),
                staging_words(way, segment, brief=True),
                _shared(way, segment, ids, choices),
            )
            for way in ways
        ),
        otherwise=_otherwise(segment, ways),
    )


def _shared(
    way: Staging, segment: Segment, ids: Sequence[str], choices: Mapping[str, Choice]
) -> SharedWay:
    if way.team != PARTNERS or not by_turns(segment):
        return SharedWay(sharing_of(way, segment, ids, choices))
    # As they came, where nobody knows yet what each lifts.
    groups = as_they_came(ids, team_sizes(len(ids), PARTNERS))
    words = staging_words(way, segment)
    return SharedWay(partners_sharing(words, groups, len(way.heats)), groups)


def _otherwise(segment: Segment, ways: Sequence[object]) -> str:
    if ways:
        return ""
    return NOTHING_FITS if is_piece(segment) else "take turns: nothing is counted here"


def _short(segment: Segment, lanes: Sequence[Lane], room: Room) -> tuple[Short, ...]:
    """What the fullest heat lacks, wherever in the round each of its lanes is."""
    first = [lane for lane in lanes if lane.heat == 1]
    needed = Counter[str]()
    for lane in first:
        needed.update(_need(segment, lane, room.library))
    return tuple(
        Short(piece, count, room.inventory[piece])
        for piece, count in needed.items()
        if count > room.inventory.get(piece, count)
    )


def _need(segment: Segment, lane: Lane, library: Library) -> Need:
    """What this lane can need at one moment, with the options that it uses."""
    if not any(lane.options):
        return most_at_once(station_needs(segment, library))
    return most_at_once(
        library.needs_of_option(station.movement, station.options[lane.option(place) - 1].name)
        if lane.option(place)
        else library.needs_of(station.movement)
        for place, station in enumerate(segment.station)
    )
