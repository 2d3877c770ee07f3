"""What the board says: the segment to come, who is in it, and how the class stands for time."""

from collections.abc import Collection, Iterator, Sequence
from datetime import datetime
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from classclock.live.standing_class import StandingClass
from classclock.plan.amounts import amount_of
from classclock.plan.cautions import cautions_of
from classclock.plan.formats.timelines import timeline
from classclock.plan.model import Segment, is_piece
from classclock.plan.option_menu import number_words, option_menu
from classclock.plan.outline import describe, set_words, station_line, terms_words
from classclock.plan.station import Option, Station
from classclock.planning.fitting import time_needed
from classclock.tally.class_lineup import partners_now
from classclock.tally.fitted_words import fitted_words
from classclock.tally.lanes import Lane
from classclock.tally.lineup import MOST_LANES, Groups
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord
from classclock.units.printable import printable
from classclock.units.times import show_time
from classclock.wall.kept_off import DASH, off_the_wall
from classclock.wall.modification import modification, starts_at
from classclock.wall.seen.class_seen import ClassSeen
from classclock.wall.time_words import left_words
from classclock.wall.wall_content import next_segment

if TYPE_CHECKING:
    from classclock.planning.equipment_offers import Offer
    from classclock.wall.lesson_content import Lesson
    from classclock.wall.lift_content import LiftBoard

_LONGEST = 300


class BoardStation(Struct, frozen=True):
    """What is done: a movement with its amount and what it needs, or a rest."""

    words: str
    standard: str = ""
    options: tuple[str, ...] = ()
    """Numbered as the key language has them: `(1) lower box`."""


class BoardLane(Struct, frozen=True):
    key: str
    name: str
    modification: str
    load: str
    start: str = ""
    """The movement that this lane starts at, where not all start at the first."""
    partners: tuple[str, ...] = ()
    """The keys of those with whom it shares a bar."""
    beside: bool = False
    """Whether it shares one with the lane before it."""


class BoardContent(Struct, frozen=True):
    title: str
    place: str
    """`segment 3 of 5`, the heat where there are several, and what was planned if it is shorter."""
    name: str
    words: str
    cautions: tuple[str, ...]
    stations: tuple[BoardStation, ...]
    sets: tuple[str, ...]
    lines: tuple[str, ...]
    notes: tuple[str, ...]
    lanes: tuple[BoardLane, ...]
    next: str
    left: str
    stop: str = ""
    """When to stop, as the club words it; of a piece only."""
    stop_stood: bool = False
    """Whether an earlier piece of this class has had it: then a line says it."""
    lift: "LiftBoard | None" = None
    """Everybody's load and plates, where the segment is a lift with sets."""
    expected: str = ""
    """What most here would do; empty until the book has been read."""
    equipment: str = ""
    """What is short, or how it is shared."""
    lesson: "Lesson | None" = None
    """The movement that is taught; then nothing else is shown."""
    head: str = ""
    """What a coach writes over the movements: `18-12-6`; `terms` is the rest of `words`."""
    terms: str = ""
    """`for time, cap 9:00, 72 reps`."""
    page: int = 0
    """Which of the pages that it takes is on, counted on beyond the last."""


def board_now(seen: ClassSeen, lesson: "Lesson | None" = None) -> BoardContent:
    """The board as the class stands at this moment."""
    wall = seen.live.clock.source.wall()
    return board_content(seen.live, wall, offer=seen.offer(), lesson=lesson)


def board_content(
    live: StandingClass,
    now: datetime,
    *,
    offer: "Offer | None" = None,
    lesson: "Lesson | None" = None,
) -> BoardContent:
    """The board at this time of day; `offer` is what is short, `lesson` what is taught."""
    record, segment = live.record, live.record.segment
    piece = Piece.of(segment, record.unit)
    lanes = live.lineup() if is_piece(segment) else ()
    heats = max((lane.heat for lane in lanes), default=1)
    lanes = tuple(lane for lane in lanes if lane.heat == record.chosen.heat)
    partners = partners_now(record, lanes)
    off = frozenset(lane.key.upper() for lane in lanes if off_the_wall(lane, record.people))
    cautions = _all_safe(cautions_of(segment, record.stop))
    begins = 1 if record.stop and is_piece(segment) else 0
    here = f"segment {record.place + 1} of {len(record.in_order)}"
    if heats > 1:
        here += f", heat {record.chosen.heat} of {heats}"
    if record.chosen.attempt > 1:
        here += ", once more"
    if fitted := fitted_words(record, record.chosen.segment):
        here += f", {fitted}"
    return BoardContent(
        title=_safe(record.plan.title),
        place=here,
        name=_safe(segment.name),
        words=describe(segment),
        cautions=cautions[begins:],
        stations=tuple(_stations(segment)),
        sets=tuple(map(set_words, segment.sets)) if segment.lift else (),
        lines=_all_safe(segment.lines),
        notes=_all_safe((*segment.notes, *record.plan.notes)),
        lanes=tuple(
            _with_partners(_lane(record, piece, lane, off, lanes), lane, lanes, partners)
            for lane in lanes
        ),
        next=_next(live),
        left=left_words(now, record.ends, time_needed(record)),
        stop="".join(cautions[:begins]),
        stop_stood=_had_a_piece(record),
        lift=_lift(live, off),
        equipment=_equipment(record, offer, lanes, partners),
        lesson=lesson,
        head=segment.headline(),
        terms=terms_words(segment),
    )


def _had_a_piece(record: ClassRecord) -> bool:
    """Whether another piece than the one on the board has been started in this class."""
    return any(run.segment != record.chosen.segment for run in record.pieces())


def _equipment(
    record: ClassRecord, offer: "Offer | None", lanes: Sequence[Lane], partners: Groups
) -> str:
    """What is short and what can be done about it, or how it is shared, in a line."""
    shared = record.shared.get(record.chosen.segment)
    alone = _alone(lanes, partners) if record.sheet is None else ""
    parts = [alone] if alone else []  # first: in a small window the rest is cut
    if shared is not None:
        parts.append(shared.way)
    elif offer is not None:
        parts.append(offer.short)
    teams = record.teams.get(record.chosen.segment)
    parts += [f"teams {teams.how}"] if teams is not None and teams.how else []
    key = "ctrl+t: " if offer is not None or teams is not None or alone else ""
    return _safe(f"{key}{'; '.join(parts)}") if parts else ""


def _alone(lanes: Sequence[Lane], partners: Groups) -> str:
    """Who shares with nobody, though the others do; empty where nobody is so."""
    by_turns = {ident for group in partners for ident in group}
    if not by_turns and all(len(lane.members) == 1 for lane in lanes):
        return ""
    left = [one.name for one in lanes if len(one.members) == 1 and one.id not in by_turns]
    has_no = "have no" if len(left) > 1 else "has no"
    return f"{', '.join(left)} {has_no} {'partner' if by_turns else 'team'}" if left else ""


def _lift(live: StandingClass, off: Collection[str]) -> "LiftBoard | None":
    if live.record.segment.lift is None:
        return None
    # What only lifts need isn't loaded before the first paint of other classes.
    from classclock.wall.kept_off_content import lift_kept_off  # noqa: PLC0415
    from classclock.wall.lift_content import lift_board  # noqa: PLC0415

    lift = lift_board(live)
    return lift_kept_off(lift, off) if lift is not None else None


def _safe(text: str) -> str:
    return printable(text, _LONGEST)


def _all_safe(texts: tuple[str, ...]) -> tuple[str, ...]:
    return tuple(map(_safe, texts))


def _stations(segment: Segment) -> Iterator[BoardStation]:
    """What is done in the order in which it is done, each movement's standard and options once."""
    written = tuple(zip(segment.station, _each_station(segment), strict=True))
    said: set[str] = set()
    for turn in segment.turns():
        if not turn.stations:
            yield BoardStation(_safe(turn.words))
        before = f"{turn.words} " if turn.words else ""
        for station, shown in written:
            if station.movement in turn.stations:
                words = f"{_safe(before)}{shown.words}"
                first = station.movement not in said
                yield replace(shown, words=words) if first else BoardStation(words)
                before = ""
        said.update(turn.stations)
    yield from (shown for station, shown in written if station.movement not in said)


def _each_station(segment: Segment) -> Iterator[BoardStation]:
    menu = option_menu(segment)
    numbers = {named: number_words(at, len(menu)) for at, named in enumerate(menu, start=1)}
    for place, station in enumerate(segment.station):
        options = []
        for number, option in enumerate(station.options, start=1):
            words = station_line(station, option) if _differs(station, option) else option.name
            options.append(_safe(f"({numbers[place, number]}) {words}"))
        yield BoardStation(
            _safe(station_line(station)), _safe(station.standard or ""), tuple(options)
        )


def _differs(station: Station, option: Option) -> bool:
    """Whether the option does another amount or load, so that its name alone says too little."""
    return amount_of(station, option) is option or option.load is not None


def _lane(
    record: ClassRecord, piece: Piece, lane: Lane, off: Collection[str], lanes: Sequence[Lane]
) -> BoardLane:
    planned = piece.planned_load(lane, 1) if piece.counts_by == "load" else None
    load = str(planned) if planned is not None else lane.load or ""
    key = lane.key.upper()
    if load and key in off:
        load = DASH
    start = starts_at(piece, lane, lanes)
    name = board_name(lane, record)
    return BoardLane(key, name, modification(piece, lane), _safe(load), start)


def board_name(lane: Lane, record: ClassRecord) -> str:
    """The lane's name; in a pair or team with each other one's letter: `Pavel + Tom (T)`.

    The first one's letter is the lane's. Above 26 people letters mean nobody between pieces.
    """
    if len(lane.members) == 1 or len(record.people) > MOST_LANES:
        return _safe(lane.name)
    people = {person.id: person for person in record.people}
    first, *others = (people[ident] for ident in lane.members)
    named = [first.name, *(f"{one.name} ({one.key.upper()})" for one in others)]
    return _safe(" + ".join(named))


def _with_partners(
    drawn: BoardLane, lane: Lane, lanes: Sequence[Lane], partners: Groups
) -> BoardLane:
    group = next((group for group in partners if lane.id in group), ())
    if not group:
        return drawn
    keys = {one.id: one.key.upper() for one in lanes}
    others = tuple(keys[ident] for ident in group if ident != lane.id)
    return replace(drawn, partners=others, beside=lane.id in group[1:])


def _next(live: StandingClass) -> str:
    segment = next_segment(live.record)
    if segment is None:
        return "this is the last segment"
    return f"next: {_safe(segment.name)}, {show_time(timeline(segment).total)}"
