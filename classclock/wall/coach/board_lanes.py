"""Everybody before a start: what each is to do in the piece on the board, or the next one."""

from collections.abc import Iterator
from typing import TYPE_CHECKING

from msgspec import Struct
from msgspec.structs import replace

from classclock.plan.model import is_piece
from classclock.planning.modifiable import not_begun
from classclock.tally.class_lineup import all_heats, partners_now
from classclock.tally.lanes import Lane
from classclock.tally.lineup import MOST_LANES, Groups
from classclock.tally.piece import Piece
from classclock.tally.record import ClassRecord, RunKey
from classclock.tally.signs import SIGNS
from classclock.units.loads import plain, shown
from classclock.units.printable import printable
from classclock.wall.board_content import board_name
from classclock.wall.coach.about_people import AboutPeople
from classclock.wall.coach.coach_values import CoachLane, LaneWords
from classclock.wall.modification import AS_WRITTEN, modification, starts_at

if TYPE_CHECKING:
    from classclock.strength.class_loads import ClassLoads


class PieceAhead(Struct, frozen=True):
    """The next piece that hasn't begun, as if it were on the board, with its lanes of one heat."""

    record: ClassRecord
    lanes: tuple[Lane, ...]
    partners: Groups

    @property
    def segment(self) -> int:
        return self.record.chosen.segment


def piece_ahead(record: ClassRecord, loads: "ClassLoads | None") -> PieceAhead | None:
    """None where no piece is left."""
    segments = record.plan.segment
    index = next((one for one in not_begun(record) if is_piece(segments[one])), None)
    if index is None:
        return None
    if index != record.chosen.segment:
        record = replace(record, chosen=RunKey(index, record.attempts.get(index, 1)))
    lanes = all_heats(record, loads)
    lanes = tuple(lane for lane in lanes if lane.heat == record.chosen.heat)[:MOST_LANES]
    return PieceAhead(record, lanes, partners_now(record, lanes))


def lanes_ahead(ahead: PieceAhead, people: AboutPeople) -> Iterator[CoachLane]:
    """What each does in it otherwise than written, with what, and what is to be looked at."""
    record = ahead.record
    piece = Piece.of(record.segment, record.unit)
    names = {lane.id: lane.name for lane in ahead.lanes}
    for lane in ahead.lanes:
        flags = (*people.flags(lane.members), *people.to_choose(lane.members))
        otherwise = modification(piece, lane)
        about = [*flags, *_loads(piece, lane, flagged=bool(flags))]
        about += [LaneWords(otherwise)] if otherwise not in ("", AS_WRITTEN) else []
        if start := starts_at(piece, lane, ahead.lanes):
            about.append(LaneWords(f"from {start}"))
        group = next((one for one in ahead.partners if lane.id in one), ())
        if others := [printable(names[one], 24) for one in group if one != lane.id]:
            about.append(LaneWords(f"with {' and '.join(others)}"))
        yield CoachLane(
            key=lane.key.upper(),
            name=board_name(lane, record),
            signs=("" if not flags else SIGNS["load"].sign)
            + (SIGNS["option"].sign if lane.modified else ""),
            about=(*about, *people.remarks(lane.members)),
        )


def _loads(piece: Piece, lane: Lane, *, flagged: bool) -> Iterator[LaneWords]:
    """Those of all sets, where they are lifted; else which of the plan's it is."""
    if piece.counts_by != "load":
        if lane.load:
            yield LaneWords(printable(lane.load))
        return
    planned = piece.planned_loads(lane)
    if known := [load for load in planned if load is not None]:
        *first, last = known
        yield LaneWords(", ".join([*(plain(load.amount) for load in first), shown(last)]))
    elif not flagged:
        yield LaneWords("no load yet", "doubtful")


def people_alone(record: ClassRecord, people: AboutPeople) -> Iterator[CoachLane]:
    """Whoever is here, where there is no piece any more."""
    here = [person.id for person in record.here]
    for person in record.people:
        if person.id in here[:MOST_LANES]:
            name = printable(person.name, 40)
            yield CoachLane(person.key.upper(), name, about=people.remarks((person.id,)))
