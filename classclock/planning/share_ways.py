"""All the ways to share in the segment on the board: equipment that is short, bars, tallies.

Loaded only when the coach asks for them. Pure: the class's record in, an offer out.
"""

from collections.abc import Iterator, Sequence

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.formats.timelines import length
from classclock.plan.model import is_piece
from classclock.planning.cap_fit import Basis, expected_of
from classclock.planning.equipment_offers import MOST_WAYS, Offer, Way
from classclock.planning.partners import Lifter, Partnering, changes_of, propose_partners
from classclock.planning.sharing import partners_sharing
from classclock.planning.staging import PARTNERS, by_turns
from classclock.planning.teams import (
    apart,
    as_they_came,
    by_lot,
    even,
    known_or_middle,
    team_sizes,
)
from classclock.strength.class_loads import ClassLoads
from classclock.strength.prescription import uses_a_bar
from classclock.tally.class_lineup import all_heats
from classclock.tally.decide_groups import SharedWay
from classclock.tally.lanes import Lane, Sharing, Teams
from classclock.tally.lineup import Groups
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.units.bars_and_plates import Equipment
from classclock.units.loads import Load


class Known(Struct, frozen=True):
    """What is known of those who are here."""

    equipment: Equipment
    loads: ClassLoads | None
    """What everybody is to lift, where that has been read."""
    basis: Basis
    seed: int
    """What a lot would be drawn with."""


def ways_on_the_board(record: ClassRecord, known: Known, short: Offer | None) -> Offer | None:
    """Every way to do the segment on the board otherwise than each alone, or in teams as planned.

    `short` is the offer of the equipment, where something is. None: there is none, or the segment
    has begun.
    """
    if record.closed or record.heats(record.chosen):
        return None
    ways = tuple(_ways(record, known, short))[:MOST_WAYS]
    if short is not None:
        return replace(short, ways=ways, otherwise="" if ways else short.otherwise)
    if not ways:
        return None
    planned = "teams as planned" if record.segment.teams else "nobody shares a bar"
    segment = record.chosen.segment
    name, people = record.segment.name, len(_here(record))
    return Offer(segment, name, people, "", ways, otherwise="", planned=planned)


def _here(record: ClassRecord) -> tuple[str, ...]:
    """The ids of all who would be in the segment, in the order in which they came."""
    drawn = {ident for lane in all_heats(record, None) for ident in lane.members}
    return tuple(person.id for person in record.people if person.id in drawn)


def _ways(record: ClassRecord, known: Known, short: Offer | None) -> Iterator[Way]:
    offered = short.ways if short is not None else ()
    people = _here(record)
    lifts = record.segment.lift is not None and by_turns(record.segment)
    if lifts and len(people) >= PARTNERS:
        in_pairs = [way for way in offered if way.by_partners]
        yield from _partners(record, known, in_pairs)
        yield from (way for way in offered if not way.by_partners)
        return
    yield from (_with_teams_made(way, record) for way in offered)
    if is_piece(record.segment) and len(people) > 1:
        yield from _teams(record, known)


# -- partners at a bar -----------------------------------------------------------


def _partners(record: ClassRecord, known: Known, offered: Sequence[Way]) -> Iterator[Way]:
    """Those who change the fewest plates, and those who came one after the other."""
    lifters = lifters_of(record, known.loads)
    ids = [one.id for one in lifters]
    came = as_they_came(ids, team_sizes(len(ids), PARTNERS))
    counted = bool(record.segment.sets) and uses_a_bar(record.segment.lift or "")
    for way in offered or (None,):
        sharing = way.shared.sharing if way is not None else None
        heats = max((place.heat for place in sharing.places), default=1) if sharing else 1
        proposed = propose_partners(lifters, known.equipment, heats)
        named = [(proposed.groups, _changes_words(proposed) if counted else _by(lifters))]
        if came != proposed.groups:
            named.append((came, _came_words(came, lifters, known.equipment, counted=counted)))
        for groups, words in named:
            if way is None or sharing is None:
                yield Way(words, words, SharedWay(partners=groups))
                continue
            places = partners_sharing(f"{sharing.way}: {words}", groups, heats)
            shared = SharedWay(places, groups)
            yield Way(f"{way.words}: {words}", f"{way.brief}: {words}", shared)


def lifters_of(record: ClassRecord, loads: ClassLoads | None) -> list[Lifter]:
    """Everybody who is here with the load of each set, as far as it is known.

    Where the plan has no sets it is the heaviest that each has handled: it says who is as strong.
    """
    piece = Piece.of(record.segment, record.unit)
    new = {one.id for one in record.people if one.newcomer or "newcomer" in one.marks}
    each_alone = replace(record, shared={}, partners={}, teams={})
    lanes = all_heats(each_alone, loads)
    return [Lifter(lane.id, _loads_of(piece, lane), lane.id in new) for lane in lanes]


def _loads_of(piece: Piece, lane: Lane) -> tuple[Load | None, ...]:
    sets = len(piece.segment.sets)
    if not uses_a_bar(piece.segment.lift or ""):
        return ()
    if not sets:
        return (lane.heaviest,)
    return tuple(piece.planned_load(lane, number) for number in range(1, sets + 1))


def _changes_words(proposed: Partnering) -> str:
    words = f"fewest plate changes, {proposed.changes} in all"
    if proposed.best_found:
        words = f"{proposed.changes} plate changes in all, best found with these plates"
    return words if proposed.enough else f"{words}; not all can load at once"


def _by(lifters: Sequence[Lifter]) -> str:
    """What partners are proposed by where no plates are planned."""
    known = any(load is not None for one in lifters for load in one.loads)
    return "partners by the heaviest each has lifted" if known else "partners as they came"


def _came_words(
    groups: Groups, lifters: Sequence[Lifter], equipment: Equipment, *, counted: bool
) -> str:
    if not counted:
        return "partners as they came"
    of = {one.id: one for one in lifters}
    changes = [changes_of([of[ident] for ident in group], equipment) for group in groups]
    if None in changes:
        return "as they came, though no bar makes the loads of some"
    return f"as they came, {sum(one or 0 for one in changes)} plate changes"


# -- teams ------------------------------------------------------------------------


def _teams(record: ClassRecord, known: Known) -> Iterator[Way]:
    """Three ways to make the teams, where the segment has any."""
    lanes = all_heats(record, None)
    size = record.segment.teams or max(len(lane.members) for lane in lanes)
    if size < PARTNERS:
        return
    sharing = record.shared.get(record.chosen.segment)
    ids = _here(record)
    sizes = team_sizes(len(ids), size)
    if sharing is not None:
        sizes = tuple(len(lane.members) for lane in lanes)
    made = [
        (as_they_came(ids, sizes), "as they came", None),
        (by_lot(ids, sizes, known.seed), "drawn by lot", known.seed),
    ]
    worth = _worth(record, ids, known.basis)
    if worth:
        groups = even(ids, sizes, worth)
        percent = -(-round(1000 * apart(groups, known_or_middle(ids, worth))) // 10)
        told = f"{len(worth)} of {len(ids)} are known" if len(worth) < len(ids) else "all are known"
        made.append((groups, f"even within {percent} %, {told}", None))
    for groups, how, seed in made:
        places = _in_places(sharing, groups) if sharing is not None else None
        shared = SharedWay(places, teams=Teams(groups, how), seed=seed)
        yield Way(f"teams {how}", f"teams {how}", shared)


def _worth(record: ClassRecord, ids: Sequence[str], basis: Basis) -> dict[str, float]:
    """Reps a minute that each is expected to do in this piece, where the book tells it."""
    segment = record.segment
    if not segment.about.has_rounds:
        return {}
    piece = Piece.of(segment, record.unit)
    found = {}
    for ident in ids:
        choice = record.choice(ident, record.chosen.segment)
        lane = Lane(ident, "", "", (ident,), choice.options, load=choice.load)
        told = expected_of(piece, lane, basis)
        if told is not None and told.total:
            found[ident] = told.total * 60_000 / (told.finish or length(segment))
    return found


def _with_teams_made(way: Way, record: ClassRecord) -> Way:
    """The way with the teams that were made in its places, where it has as many."""
    made, sharing = record.teams.get(record.chosen.segment), way.shared.sharing
    if made is None or sharing is None or len(sharing.places) != len(made.groups):
        return way
    return replace(way, shared=SharedWay(_in_places(sharing, made.groups), teams=made))


def _in_places(sharing: Sharing, groups: Groups) -> Sharing:
    places = zip(sharing.places, groups, strict=True)
    return replace(sharing, places=tuple(replace(place, members=group) for place, group in places))
